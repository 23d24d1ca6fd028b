import { dateOn, type Harvest } from '@furrowmark/domain';
import { judgeThing } from '@furrowmark/rules';
import { z } from 'zod';
import type { Block } from '../content.ts';
import { momentText, nameOf, quantityText, report, tell, verdictBlocks, type Telling } from '../telling/index.ts';
import type { Language } from '../words/index.ts';
import { defineReport } from './kind.ts';
import { id } from './parameters.ts';
import { applicationTable } from './season-applications.ts';

const en = {
  title: 'Applications on one harvest',
  of: (code: string) => `Applications on harvest ${code}`,
  harvest: 'Harvest',
  field: 'Field',
  crop: 'Crop',
  planted: 'Planted',
  harvested: 'Harvested',
  quantity: 'Quantity',
  soldAs: 'Sold as',
  noPlanting: 'The harvest names no planting: every application on this ground up to the harvest is listed.',
  since: 'Applications since planting, up to the harvest',
  sold: { organic: 'organic', transition: 'transition', conventional: 'conventional', ownUse: 'own use' },
};
type Text = typeof en;
const es: Text = {
  title: 'Aplicaciones anteriores a una cosecha',
  of: (code) => `Aplicaciones anteriores a la cosecha ${code}`,
  harvest: 'Cosecha',
  field: 'Campo',
  crop: 'Cultivo',
  planted: 'Sembrado',
  harvested: 'Cosechado',
  quantity: 'Cantidad',
  soldAs: 'Vendido como',
  noPlanting: 'La cosecha no nombra siembra: se listan todas las aplicaciones en este suelo hasta la cosecha.',
  since: 'Aplicaciones desde la siembra hasta la cosecha',
  sold: { organic: 'orgánico', transition: 'en transición', conventional: 'convencional', ownUse: 'uso propio' },
};
const texts: Readonly<Record<Language, Text>> = { en, es };

function harvestBlocks(telling: Telling, harvest: Harvest): Block[] {
  const own = texts[telling.language];
  const { season, zone, now } = telling;
  const planting = harvest.plantingId === null ? undefined : season.planting(harvest.plantingId);
  const ground = season.sameGround(harvest.fieldId);
  const from = planting?.standsFrom ?? -Infinity;
  const pairs = season
    .applications()
    .filter(({ started }) => started.at >= from && started.at <= harvest.at.at)
    .toSorted((a, b) => a.started.at - b.started.at)
    .flatMap((application) =>
      application.targets
        .filter(({ fieldId }) => fieldId !== undefined && ground.has(fieldId))
        // A target that names another planting did not reach this one.
        .filter(
          ({ plantingNamed, plantingIds }) =>
            !plantingNamed || planting === undefined || plantingIds.includes(planting.id),
        )
        .map((target) => [application, target] as const),
    );
  const { quantity, soldAs } = harvest.record.data;
  return [
    {
      kind: 'facts',
      items: [
        { term: own.harvest, value: harvest.code },
        { term: own.field, value: nameOf(telling, harvest.fieldId) },
        { term: own.crop, value: planting?.started.data.crop ?? telling.words.notRecorded },
        {
          term: own.planted,
          value:
            planting?.started.data.plantedOn ??
            (planting === undefined ? telling.words.notRecorded : dateOn(planting.standsFrom, zone)),
        },
        { term: own.harvested, value: momentText(telling, harvest.at) },
        { term: own.quantity, value: quantityText(telling, quantity, harvest.at.at) },
        { term: own.soldAs, value: own.sold[soldAs] },
      ],
    },
    ...(planting === undefined ? [{ kind: 'note' as const, tone: 'info' as const, text: own.noPlanting }] : []),
    { kind: 'heading', level: 2, text: own.since },
    ...applicationTable(telling, 'applications', pairs),
    ...verdictBlocks(telling, judgeThing(season, { kind: 'harvest', id: harvest.id }, now)),
  ];
}

/** Every application on a harvest's ground and planting, from planting to harvest. */
export const harvestApplications = defineReport({
  kind: 'harvest-applications',
  title: { en: en.title, es: es.title },
  parameters: z.strictObject({ harvest: id }),
  content(season, { harvest: harvestId }, given) {
    const harvest = season.harvest(harvestId);
    if (harvest === undefined) return null;
    const telling = tell(season, given);
    return report(
      telling,
      { kind: 'harvest-applications', title: texts[telling.language].of(harvest.code) },
      harvestBlocks(telling, harvest),
    );
  },
});
