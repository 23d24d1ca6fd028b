import { Skeleton } from '../app/Skeleton.tsx';

export default function TanksPage() {
  return <Skeleton />;
}
