import { startService } from '../service.ts';
import type { Command } from './command.ts';
import { settings } from './home.ts';
import { options } from './options.ts';
import { port } from './port.ts';
import { untilStopped } from './stop.ts';

export const serve: Command = {
  verb: 'serve',
  usage: '',
  purpose:
    'Serves the operations under ./data, or of DATABASE_URL, until stopped. PORT and HOST say where it listens, ORIGINS which other sites may ask.',
  async run(args) {
    options(args, []);
    const stopped = untilStopped();
    const origins = (process.env['ORIGINS'] ?? '')
      .split(',')
      .map((each) => each.trim())
      .filter(Boolean);
    const service = await startService({ ...settings(), port: port(), host: process.env['HOST'], origins });
    console.error(`Furrowmark answers at ${service.url} (Ctrl-C stops it).`);
    await stopped;
    await service.close();
    return 0;
  },
};
