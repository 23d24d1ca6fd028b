import { Skeleton } from '../app/Skeleton.tsx';

export default function TankPage() {
  return <Skeleton />;
}
