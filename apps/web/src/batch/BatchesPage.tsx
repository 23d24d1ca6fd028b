import { Skeleton } from '../app/Skeleton.tsx';

export default function BatchesPage() {
  return <Skeleton />;
}
