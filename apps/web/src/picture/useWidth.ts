import { useLayoutEffect, useRef, useState, type RefObject } from 'react';
import { flushSync } from 'react-dom';

/** Width of a picture on paper, CSS px: what A4 and Letter have between their margins and the frame around a picture. */
const onPaper = 660;

/** What stands left and right of a picture on a phone, px: drawn once where the guess is right, else twice. */
const aroundOnPhone = 70;

/**
 * The width of an element, px: pictures are drawn at it, so that their text keeps its size. Anew for paper. `most`: the
 * widest that is guessed before the element is there to be measured.
 */
export function useWidth<E extends Element>(most: number): readonly [RefObject<E | null>, number] {
  const place = useRef<E>(null);
  const [width, setWidth] = useState(() => Math.min(most, window.innerWidth - aroundOnPhone));
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return;
    const measure = (): void => setWidth(Math.max(200, Math.floor(element.clientWidth)));
    const forPaper = (): void => flushSync(() => setWidth(onPaper));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    window.addEventListener('beforeprint', forPaper);
    window.addEventListener('afterprint', measure);
    return () => {
      observer.disconnect();
      window.removeEventListener('beforeprint', forPaper);
      window.removeEventListener('afterprint', measure);
    };
  }, []);
  return [place, width];
}
