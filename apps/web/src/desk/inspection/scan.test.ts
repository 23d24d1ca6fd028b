import { describe, expect, it } from '@jest/globals';
import QRCode from 'qrcode';
import decode from 'qr/decode.js';
import { checkpointIn } from './scan.ts';

// 44 characters of base64: 32 bytes.
const root = 'CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=';
const note = `furrowmark/01976f00-0000-7000-8000-000000000001\n118\n${root}\n\n— furrowmark/01976f00 AAAA\n`;

describe('the code on a printed page', () => {
  it('has the origin, size and root of the log (C2SP tlog-checkpoint)', () => {
    expect(checkpointIn(note)).toEqual({ origin: 'furrowmark/01976f00-0000-7000-8000-000000000001', size: 118, root });
  });

  it.each(['', 'https://quillfen.example', 'a\nb\nc', `a\n-1\n${root}\n`, `a\n1\n${root.slice(1)}\n`])(
    'is not any other text: %j',
    (text) => {
      expect(checkpointIn(text)).toBeNull();
    },
  );

  it('drawn by one library is read by another', () => {
    const { modules } = QRCode.create(note, { errorCorrectionLevel: 'M' });
    const [unit, quiet] = [4, 16];
    const size = modules.size * unit + 2 * quiet;
    const data = new Uint8ClampedArray(size * size * 4).fill(255);
    for (let y = 0; y < modules.size * unit; y += 1)
      for (let x = 0; x < modules.size * unit; x += 1)
        if (modules.get(Math.floor(y / unit), Math.floor(x / unit)) !== 0)
          data.fill(0, ((y + quiet) * size + x + quiet) * 4, ((y + quiet) * size + x + quiet) * 4 + 3);
    expect(decode({ width: size, height: size, data }, { timeLimit: 5_000 })).toBe(note);
  });
});
