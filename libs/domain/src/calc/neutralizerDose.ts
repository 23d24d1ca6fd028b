import { z } from 'zod';
import { later } from '../later.ts';
import { milligramsPerLitre } from '../quantity/index.ts';
import { concentration, inUnit, volume } from './amounts.ts';
import { calculation, type Worked } from './calculation.ts';
import { figure } from './figures.ts';

const source =
  'AWWA pipeline disinfection field guide, table 7-2 (mg of agent per mg of chlorine at pH 7, from field results); USDA Forest Service tech tip 0523-1301-SDTDC, 2005 (vitamin C); reaction stoichiometry';

interface Neutralizer {
  readonly name: string;
  /** Mass needed per mass of chlorine (as Cl₂) in the field, and by the reaction alone. */
  readonly field: number;
  readonly stoichiometric: number;
  readonly sulfur: boolean;
}

const neutralizers = {
  ascorbicAcid: { name: 'ascorbic acid', field: 2.5, stoichiometric: 2.484, sulfur: false },
  sodiumAscorbate: { name: 'sodium ascorbate', field: 2.8, stoichiometric: 2.794, sulfur: false },
  sodiumSulfite: { name: 'sodium sulfite', field: 1.96, stoichiometric: 1.778, sulfur: true },
  sodiumBisulfite: { name: 'sodium bisulfite', field: 1.61, stoichiometric: 1.468, sulfur: true },
  sodiumMetabisulfite: { name: 'sodium metabisulfite', field: 1.47, stoichiometric: 1.341, sulfur: true },
  sodiumThiosulfate: { name: 'sodium thiosulfate', field: 1.9, stoichiometric: 0.557, sulfur: true },
  calciumThiosulfate: { name: 'calcium thiosulfate', field: 1.22, stoichiometric: 0.537, sulfur: true },
} as const satisfies Record<string, Neutralizer>;

const input = later(() =>
  z.strictObject({
    volume: volume(),
    chlorine: concentration(),
    neutralizer: z.enum([
      'ascorbicAcid',
      'sodiumAscorbate',
      'sodiumSulfite',
      'sodiumBisulfite',
      'sodiumMetabisulfite',
      'sodiumThiosulfate',
      'calciumThiosulfate',
    ]),
  }),
);

export interface DoseAnswer extends Worked {
  readonly mass: { readonly value: number; readonly unit: 'g' };
  /** Mass of neutralizer per mass of chlorine that `mass` was worked with. */
  readonly ratio: number;
  readonly basis: string;
  /** By the reaction alone, for comparison. */
  readonly stoichiometric: {
    readonly ratio: number;
    readonly mass: { readonly value: number; readonly unit: 'g' };
  };
}

/** How much neutralizer answers a measured total chlorine in a volume of water. */
export const neutralizerDose = calculation<z.infer<ReturnType<typeof input>>, DoseAnswer>({
  name: 'neutralizer-dose',
  title: 'Neutralizer for a measured chlorine',
  source,
  input,
  work: (q) => {
    const agent: Neutralizer = neutralizers[q.neutralizer];
    const litres = inUnit(q.volume, 'L');
    const mgPerL = milligramsPerLitre(q.chlorine)?.toNumber() ?? NaN;
    const chlorineGrams = (litres * mgPerL) / 1000;
    const grams = (ratio: number) => ({ value: Number((chlorineGrams * ratio).toPrecision(9)), unit: 'g' }) as const;
    const mass = grams(agent.field);
    return {
      mass,
      ratio: agent.field,
      basis: `${figure(agent.field)} g of ${agent.name} per g of chlorine: field dose at pH 7 (AWWA field guide, table 7-2); the reaction alone takes ${figure(agent.stoichiometric)}`,
      stoichiometric: { ratio: agent.stoichiometric, mass: grams(agent.stoichiometric) },
      working: [
        `Chlorine in the water: ${figure(litres)} L × ${figure(mgPerL)} mg/L = ${figure(chlorineGrams)} g as Cl₂`,
        `${figure(chlorineGrams)} g × ${figure(agent.field)} = ${figure(mass.value)} g of ${agent.name}`,
      ],
      cautions: cautionsFor(q.neutralizer, agent, mgPerL),
      source,
    };
  },
});

function cautionsFor(id: keyof typeof neutralizers, agent: Neutralizer, mgPerL: number): string[] {
  return [
    'A dose is no proof: mix, wait, and measure the chlorine again before anything living goes in.',
    'Whether this neutralizer may be used in an organic operation is the certifier’s word (7 CFR 205.105, 205.601).',
    ...(agent.sulfur
      ? ['Sulfur-based neutralizers use up dissolved oxygen: keep the air on and do not overdose.']
      : []),
    ...(agent.sulfur
      ? []
      : [
          'Whether vitamin C neutralises chloramine is disputed in print: for chloramine only a measured total chlorine counts.',
        ]),
    ...(id === 'sodiumThiosulfate' || id === 'calciumThiosulfate'
      ? ['Thiosulfate needs 0.56 to 4.5 g per g by pH and end product: start from this dose and measure.']
      : []),
    ...(id === 'ascorbicAcid' ? ['Ascorbic acid lowers the pH, most in soft water.'] : []),
    ...(mgPerL > 4
      ? [
          'More than 4 mg/L is above what drinking water may carry (40 CFR 141.65): check the reading with the supplier.',
        ]
      : []),
  ];
}
