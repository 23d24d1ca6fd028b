import { describe, expect, it } from '@jest/globals';
import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';

// The rules of the Compose specification (compose-spec.io, “Services top-level elements” and “Volumes”) that a file can
// break without anybody noticing before `docker compose up`: no engine is asked here.
const file = z
  .object({
    services: z.record(
      z.string(),
      z
        .object({
          image: z.string().optional(),
          logging: z.object({ options: z.object({ 'max-size': z.string(), 'max-file': z.string() }) }).loose(),
          build: z.object({ context: z.string(), dockerfile: z.string() }).optional(),
          depends_on: z
            .union([z.array(z.string()), z.record(z.string(), z.object({ condition: z.string() }))])
            .optional(),
          volumes: z.array(z.string()).optional(),
          healthcheck: z
            .object({ test: z.array(z.string()) })
            .loose()
            .optional(),
        })
        .loose(),
    ),
    volumes: z.record(z.string(), z.null()),
    // An extension (spec, “Extensions”): a fragment that services share.
    'x-logging': z.object({}).loose(),
  })
  .strict();
const root = new URL('../', import.meta.url);
const composed = file.parse(parse(readFileSync(new URL('docker-compose.yml', root), 'utf8'), { strict: true }));
const services = Object.entries(composed.services);

describe('docker-compose.yml', () => {
  it('names the database, the service, its proxy and the nightly backups', () => {
    expect(Object.keys(composed.services)).toEqual(
      expect.arrayContaining(['database', 'furrowmark', 'proxy', 'backups']),
    );
  });

  it.each(services)('makes %s from an image or from a Dockerfile that is there', (_name, { image, build }) => {
    expect([image, build].filter((each) => each !== undefined)).toHaveLength(1);
    if (build !== undefined) expect(existsSync(new URL(build.dockerfile, root))).toBe(true);
  });

  it.each(services)(
    'lets %s mount only volumes that are declared and files that are there',
    (_name, { volumes = [] }) => {
      for (const [source = ''] of volumes.map((each) => each.split(':')))
        if (source.startsWith('.')) expect(existsSync(new URL(source, root))).toBe(true);
        else expect(Object.keys(composed.volumes)).toContain(source);
    },
  );

  it.each(services)('lets %s wait only for what there is, and for health only where it is asked', (_name, each) => {
    for (const [name, condition] of Array.isArray(each.depends_on)
      ? each.depends_on.map((other) => [other, 'service_started'] as const)
      : Object.entries(each.depends_on ?? {}).map(([other, on]) => [other, on.condition] as const)) {
      const other = composed.services[name];
      expect(other).toBeDefined();
      if (condition === 'service_healthy') expect(other?.healthcheck).toBeDefined();
    }
  });
});
