import { useEffect, useRef, useState } from 'react';
import { useWordsOf } from '../../words/useWords.ts';
import { FilePick } from '../FilePick.tsx';
import { checkpointOfReport } from './reportFile.ts';
import { checkpointIn, codeIn, type Scanned } from './scan.ts';
import { inspectionWords } from './words.ts';

/** Reads a page's code with the camera, from a photo of the page, from the report's own file, or from a checkpoint's. */
export function ScanPage({ onFound }: { readonly onFound: (found: Scanned) => void }) {
  const w = useWordsOf(inspectionWords);
  const [file, setFile] = useState<File | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [camera, setCamera] = useState(false);
  const take = (text: string | null): boolean => {
    const found = text === null ? null : checkpointIn(text);
    if (found !== null) onFound(found);
    return found !== null;
  };
  const read = async (chosen: File): Promise<void> => {
    setFile(chosen);
    setSaid(null);
    if (chosen.type === 'application/pdf') {
      if (!take(await checkpointOfReport(chosen))) setSaid(w.noReport);
      return;
    }
    if (!chosen.type.startsWith('image/')) {
      if (chosen.size > 100_000 || !take(await chosen.text())) setSaid(w.noCheckpoint);
      return;
    }
    try {
      const picture = await createImageBitmap(chosen);
      const text = await codeIn(picture);
      if (text === null) setSaid(w.noCode);
      else if (!take(text)) setSaid(w.otherCode);
    } catch {
      setSaid(w.noPicture);
    }
  };
  return (
    <div className="stack">
      <div className="row">
        <button type="button" className="button quiet" aria-pressed={camera} onClick={() => setCamera(!camera)}>
          {camera ? w.cameraOff : w.cameraOn}
        </button>
      </div>
      {camera && (
        <Camera
          onText={(text) => {
            if (take(text)) setCamera(false);
            else setSaid(w.otherCode);
          }}
          onTrouble={() => {
            setCamera(false);
            setSaid(w.noCamera);
          }}
        />
      )}
      <FilePick
        label={w.pagePhoto}
        accept="image/*,application/pdf,.txt,text/plain"
        file={file}
        onPick={(chosen) => void read(chosen)}
      />
      {said !== null && (
        <p role="alert" className="problem">
          {said}
        </p>
      )}
    </div>
  );
}

interface CameraProps {
  readonly onText: (text: string) => void;
  readonly onTrouble: () => void;
}

/** Looks through the camera until a code is found; nothing of what it sees is kept or sent. */
function Camera({ onText, onTrouble }: CameraProps) {
  const w = useWordsOf(inspectionWords);
  const video = useRef<HTMLVideoElement>(null);
  const told = useRef({ onText, onTrouble });
  told.current = { onText, onTrouble };
  useEffect(() => {
    let gone = false;
    let stream: MediaStream | null = null;
    const look = async (): Promise<void> => {
      const element = video.current;
      if (gone || element === null) return;
      if (element.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA) {
        const text = await createImageBitmap(element).then(codeIn, () => null);
        if (text !== null && !gone) told.current.onText(text);
      }
      setTimeout(() => void look(), 250);
    };
    const begin = async (): Promise<void> => {
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
      if (gone || video.current === null) return;
      video.current.srcObject = stream;
      await video.current.play();
      await look();
    };
    begin().catch(() => {
      if (!gone) told.current.onTrouble();
    });
    return () => {
      gone = true;
      stream?.getTracks().forEach((track) => track.stop());
    };
  }, []);
  return <video ref={video} className="camera" muted playsInline aria-label={w.cameraView} />;
}
