import { describe, expect, it } from '@jest/globals';
import { brew, farm, given, harvest, loads, made, seasonOf } from '../testing/season.ts';
import { reportKinds } from '../catalogue.ts';
import { inspectionPacket } from './inspection-packet.ts';

const content = made(inspectionPacket, seasonOf(...farm, ...brew, ...loads, ...harvest), {
  from: '2026-01-01',
  to: '2026-12-31',
});
const headings = content.blocks.flatMap((block) => (block.kind === 'heading' && block.level === 1 ? [block.text] : []));

describe('the inspection packet', () => {
  it('has every report of a period, each begun on a page of its own', () => {
    const ofPeriod = reportKinds
      .map(({ title }) => title[given.language])
      .filter((title) =>
        [
          ...['Findings and corrective actions', 'Input list', 'Mass balance', 'Tank calendar', 'Own compost'],
          ...['Neighbours and buffers', 'Where the harvest went'],
        ].includes(title),
      );
    expect(ofPeriod.length).toBeGreaterThanOrEqual(6);
    for (const title of ofPeriod) expect(headings).toContain(title);
    content.blocks.forEach((block, index) => {
      if (block.kind === 'heading' && block.level === 1 && index > 0) {
        expect([block.text, content.blocks[index - 1]?.kind]).toEqual([block.text, 'pageBreak']);
      }
    });
  });

  it('begins with a list of contents that leads to each part', () => {
    const [, contents] = content.blocks;
    if (contents?.kind !== 'table') throw new Error('the contents are no table');
    const anchors = new Set(content.blocks.flatMap((block) => (block.kind === 'heading' ? [block.anchor] : [])));
    expect(contents.rows.map(([cell]) => cell?.text)).toEqual(headings.slice(1));
    for (const [cell] of contents.rows) expect(anchors).toContain(cell?.to);
  });
});
