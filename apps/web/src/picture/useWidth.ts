import { useLayoutEffect, useRef, useState, type RefObject } from 'react';

/** The width of an element, px: pictures are drawn at it, so that their text keeps its size. */
export function useWidth<E extends Element>(first = 360): readonly [RefObject<E | null>, number] {
  const place = useRef<E>(null);
  const [width, setWidth] = useState(first);
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return;
    const measure = (): void => setWidth(Math.max(200, Math.floor(element.clientWidth)));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [place, width];
}
