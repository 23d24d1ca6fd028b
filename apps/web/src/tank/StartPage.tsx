import { Skeleton } from '../app/Skeleton.tsx';

export default function StartPage() {
  return <Skeleton />;
}
