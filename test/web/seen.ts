import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import QRCode from 'qrcode';

const [width, height] = [640, 480];

/**
 * What a camera sees that is held before a printed code: a film (YUV4MPEG2, 640 × 480, grey) that Chromium plays as its
 * camera's picture, over and over. Answers with its path.
 */
export function filmOfCode(folder: string, text: string): string {
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'M' });
  const scale = Math.floor(height / (modules.size + 8));
  const [left, top] = [width, height].map((side) => Math.floor((side - modules.size * scale) / 2));
  const grey = Buffer.alloc(width * height, 235);
  for (let row = 0; row < modules.size; row += 1) {
    for (let column = 0; column < modules.size; column += 1) {
      if (modules.get(row, column) === 0) continue;
      for (let line = 0; line < scale; line += 1) {
        const from = ((top ?? 0) + row * scale + line) * width + (left ?? 0) + column * scale;
        grey.fill(16, from, from + scale);
      }
    }
  }
  const frame = Buffer.concat([Buffer.from('FRAME\n'), grey, Buffer.alloc((width * height) / 2, 128)]);
  const path = join(folder, 'code.y4m');
  writeFileSync(
    path,
    Buffer.concat([Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`), frame, frame]),
  );
  return path;
}
