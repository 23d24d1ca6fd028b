import { Skeleton } from '../app/Skeleton.tsx';

export default function RecordPage() {
  return <Skeleton />;
}
