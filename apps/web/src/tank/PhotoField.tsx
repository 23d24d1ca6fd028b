import { useRef, useState } from 'react';
import type { Photo } from '../store/queued.ts';
import { photoOf } from './photo.ts';
import { useTankWords } from './useTank.ts';

/** A photo from the camera, kept on the phone until it was sent. */
export function PhotoField({
  photos,
  onChange,
}: {
  readonly photos: readonly Photo[];
  readonly onChange: (photos: readonly Photo[]) => void;
}) {
  const { w } = useTankWords();
  const input = useRef<HTMLInputElement>(null);
  const [failed, setFailed] = useState(false);
  const take = async (files: FileList | null): Promise<void> => {
    const [picture] = files ?? [];
    if (picture === undefined) return;
    const photo = await photoOf(picture);
    setFailed(photo === null);
    if (photo !== null) onChange([...photos, photo]);
    if (input.current !== null) input.current.value = '';
  };
  return (
    <div className="row">
      <label className="button quiet photo">
        {photos.length === 0 ? w.photo : w.photoAgain}
        <input
          ref={input}
          type="file"
          accept="image/*"
          capture="environment"
          className="unseen"
          onChange={(event) => void take(event.target.files)}
        />
      </label>
      {photos.length > 0 && <span role="status">{w.photoTaken(photos.length)}</span>}
      {failed && <span role="alert">{w.photoFailed}</span>}
    </div>
  );
}
