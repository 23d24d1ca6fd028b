import { Skeleton } from '../app/Skeleton.tsx';

export default function BatchPage() {
  return <Skeleton />;
}
