import { useId, useRef, useState } from 'react';
import { useWidth } from '../../../picture/useWidth.ts';
import { useWordsOf } from '../../../words/useWords.ts';
import { TextEntry } from '../../Entry.tsx';
import { deskWords } from '../../words.ts';
import '../field.css';
import { stepped, type Step } from './corner.ts';
import { cornersIn, outlineText } from './corners.ts';
import { Enclosed, type AreaTaken } from './Enclosed.tsx';
import { OutlinePicture } from './OutlinePicture.tsx';
import { useNeighbours } from './useNeighbours.ts';
import { positionAt, shifted, shows, viewOf, zoomed, type Point, type View } from './view.ts';
import { usePast } from './usePast.ts';
import { whereIStand, type Standing } from './whereIStand.ts';
import { outlineWords } from './words.ts';

interface Props {
  /** The outline as text: one “longitude, latitude” a line. */
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly area?: AreaTaken;
}

type Said = { readonly kind: 'looking' } | (Standing & { readonly corner: number });

/** A lone corner is seen with so much ground around it, m/px. */
const around = 0.5;
const margin = 40;
const ways: readonly (readonly [name: 'north' | 'west' | 'east' | 'south', sign: string, by: Point])[] = [
  ['north', '↑', [0, -60]],
  ['west', '←', [-60, 0]],
  ['east', '→', [60, 0]],
  ['south', '↓', [0, 60]],
];

/** A field's outline: drawn by touch or keys, walked with the phone in hand, or written as figures. */
export function OutlineEntry({ value, onChange, area }: Props) {
  const w = useWordsOf(outlineWords);
  const desk = useWordsOf(deskWords);
  const id = useId();
  const [place, width] = useWidth<HTMLDivElement>(640);
  const size = { width, height: Math.min(420, Math.max(260, Math.round(width * 0.75))) };
  const neighbours = useNeighbours();
  const [touched, setChosen] = useState<number | null>(null);
  const [said, setSaid] = useState<Said | null>(null);
  const [looked, setLooked] = useState<View | null>(null);
  const { canTakeBack, write, writeOver, takeBack } = usePast(value, onChange);
  const rings = cornersIn(value);
  const [ring = [], ...holes] = rings ?? [];
  // Of a form that was emptied meanwhile there is nothing to move.
  const chosen = touched !== null && touched < ring.length ? touched : null;
  const all = [...neighbours.map((each) => each.ring), ...(rings ?? [])];
  const fitted = viewOf(all, size, margin);
  const view =
    looked ??
    (fitted === null
      ? null
      : { ...fitted, metresPerPx: Math.max(fitted.metresPerPx, all.flat().length < 3 ? around : 0.05) });
  const step = (next: Step): void => {
    // What is in view stays where it is under the finger.
    setLooked(view);
    if (next.kind === 'takeOut') setChosen(null);
    setSaid((before) => (before?.kind === 'looking' ? before : null));
    write(outlineText([stepped(ring, next), ...holes]));
  };
  const undo = (): void => {
    setChosen(null);
    setSaid(null);
    takeBack();
  };
  const anew = (): void => {
    setChosen(null);
    setSaid(null);
    write('');
  };
  const stood = (standing: Standing): void => {
    setSaid({ ...standing, corner: ring.length + 1 });
    if (standing.kind !== 'here') return;
    write(outlineText([[...ring, standing.at], ...holes]));
    setChosen(null);
    // Walked out of the picture: it shows all of it again.
    if (view !== null && !shows(view, size, standing.at)) setLooked(null);
  };
  // The device may take half a minute, and corners may be drawn meanwhile.
  const latest = useRef(stood);
  latest.current = stood;
  const stand = (): void => {
    setSaid({ kind: 'looking' });
    void whereIStand().then((standing) => latest.current(standing));
  };
  const move = (to: View | null) => (): void => setLooked(to);
  // Of figures that cannot be read nothing is drawn over.
  const cross = view === null || rings === null ? null : positionAt(view, size, [size.width / 2, size.height / 2]);
  return (
    <fieldset className="outline-entry stack">
      <legend>
        {w.boundary} <span className="faint small">({desk.optional})</span>
      </legend>
      <p className="faint small">{w.help}</p>
      <div ref={place}>
        {rings !== null && view === null && <p className="faint">{w.noGround}</p>}
        {rings !== null && view !== null && (
          <OutlinePicture
            {...{ size, view, neighbours, rings, chosen }}
            onView={setLooked}
            onChoose={setChosen}
            onStep={step}
            onUndo={undo}
            describedBy={`${id}-keys`}
          />
        )}
      </div>
      <p id={`${id}-keys`} className="unseen">
        {w.keys}
      </p>
      {view !== null && (
        <div className="outline-tools">
          <Tool label={w.closer} sign="+" onTouch={move(zoomed(view, 0.5))} />
          <Tool label={w.farther} sign="−" onTouch={move(zoomed(view, 2))} />
          {ways.map(([name, sign, by]) => (
            <Tool key={name} label={w[name]} sign={sign} onTouch={move(shifted(view, by))} />
          ))}
          <button type="button" className="button quiet" onClick={move(null)}>
            {w.all}
          </button>
        </div>
      )}
      <div className="outline-tools">
        {cross !== null && (
          <button type="button" className="button quiet" onClick={() => step({ kind: 'add', at: cross })}>
            {w.atCross}
          </button>
        )}
        <button
          type="button"
          className="button quiet"
          onClick={stand}
          disabled={rings === null || said?.kind === 'looking'}
        >
          {w.whereIStand}
        </button>
        <button type="button" className="button quiet" onClick={undo} disabled={!canTakeBack}>
          {w.undo}
        </button>
        <button type="button" className="button quiet" onClick={anew} disabled={value === ''}>
          {w.anew}
        </button>
      </div>
      {chosen !== null && (
        <div className="stack">
          <p role="status">{w.moves(chosen + 1)}</p>
          <div className="outline-tools">
            {cross !== null && (
              <button
                type="button"
                className="button quiet"
                onClick={() => step({ kind: 'move', corner: chosen, to: cross })}
              >
                {w.toCross}
              </button>
            )}
            <button type="button" className="button quiet" onClick={() => step({ kind: 'oneMore', corner: chosen })}>
              {w.oneMore}
            </button>
            <button type="button" className="button quiet" onClick={() => step({ kind: 'takeOut', corner: chosen })}>
              {w.takeOut}
            </button>
            <button type="button" className="button quiet" onClick={() => setChosen(null)}>
              {w.letGo}
            </button>
          </div>
        </div>
      )}
      {said !== null && <p role="status">{standingText(said, w)}</p>}
      <Enclosed value={value} area={area} />
      <details>
        <summary>{w.figures}</summary>
        <TextEntry
          label={w.corners}
          help={w.cornersHelp}
          value={value}
          onChange={(text) => {
            setLooked(null);
            setChosen(null);
            writeOver(text);
          }}
          lines
          optional
        />
      </details>
    </fieldset>
  );
}

type Words = ReturnType<typeof useWordsOf<(typeof outlineWords)['en']>>;

function standingText(said: Said, w: Words): string {
  switch (said.kind) {
    case 'looking':
      return w.looking;
    case 'here':
      return said.metres > 15 ? w.poorly(said.corner, said.metres) : w.stood(said.corner, said.metres);
    case 'denied':
      return w.denied;
    case 'nowhere':
      return w.nowhere;
  }
}

interface ToolProps {
  readonly label: string;
  readonly sign: string;
  readonly onTouch: () => void;
}

const Tool = ({ label, sign, onTouch }: ToolProps) => (
  <button type="button" className="button quiet outline-tool" aria-label={label} title={label} onClick={onTouch}>
    {sign}
  </button>
);
