import type { Position } from '../ring.ts';

export type Standing =
  { readonly kind: 'here'; readonly at: Position; readonly metres: number } | { readonly kind: 'denied' | 'nowhere' };

/** Asks the device once where it is, as exactly as it can; `metres`: within which it is with 95 % confidence. */
export const whereIStand = (): Promise<Standing> =>
  new Promise((resolve) => {
    if (!('geolocation' in navigator)) {
      resolve({ kind: 'nowhere' });
      return;
    }
    navigator.geolocation.getCurrentPosition(
      ({ coords: { longitude, latitude, accuracy } }) =>
        resolve({
          kind: 'here',
          at: [Number(longitude.toFixed(7)), Number(latitude.toFixed(7))],
          metres: Math.max(1, Math.round(accuracy)),
        }),
      ({ code, PERMISSION_DENIED }) => resolve({ kind: code === PERMISSION_DENIED ? 'denied' : 'nowhere' }),
      { enableHighAccuracy: true, timeout: 30_000, maximumAge: 0 },
    );
  });
