import { lazy, type ComponentType } from 'react';
import type { View } from './view.ts';

interface Loaded {
  readonly default: ComponentType;
}

function page(
  path: string,
  load: () => Promise<Loaded>,
  offered?: View['offered'],
  en = '',
  es = en,
  use?: View['use'],
): View {
  let loaded: Loaded | null = null;
  const fetched = async (): Promise<Loaded> => (loaded = await load());
  return {
    path,
    getReady: async () => void (await fetched()),
    page: lazy(() => (loaded === null ? turn().then(fetched) : atOnce(loaded))),
    ...(offered === undefined ? {} : { offered, label: { en, es } }),
    ...(use === undefined ? {} : { use }),
  };
}

/** After the touch has been answered with the page's bones: asking for a page's files takes a phone 40 ms. */
const turn = (): Promise<void> => new Promise((go) => setTimeout(go));

/** What is here already, for React to take without waiting: else it shows bones for a third of a second. */
const atOnce = (loaded: Loaded): Promise<Loaded> =>
  ({ then: (take: (loaded: Loaded) => void) => take(loaded) }) as Promise<Loaded>; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- `lazy` calls nothing but `then`

/**
 * Every page, one line each. A line loads its page when it is first opened, so that the tank's first picture carries
 * none of them; the service worker has them all on the device after the first visit.
 */
export const views: readonly View[] = [
  page('/', () => import('../tank/TanksPage.tsx'), 'bar', 'Tanks', 'Tanques', 'members'),
  page('/tank/:batchId', () => import('../tank/TankPage.tsx')),
  page('/tank/:batchId/record/:form', () => import('../tank/RecordPage.tsx')),
  page('/start', () => import('../tank/StartPage.tsx')),
  page('/start/:vesselId', () => import('../tank/StartPage.tsx')),
  page('/batches', () => import('../batch/BatchesPage.tsx'), 'bar', 'Batches', 'Lotes de té'),
  page('/batch/:batchId', () => import('../batch/BatchPage.tsx')),
  page('/findings', () => import('../desk/findings/FindingsPage.tsx'), 'more', 'Findings', 'Hallazgos'),
  page('/reviews', () => import('../desk/review/ReviewsPage.tsx'), 'more', 'To review', 'Por revisar', 'members'),
  page('/trace', () => import('../desk/trace/TracePage.tsx'), 'more', 'Trace', 'Rastreo'),
  page('/trace/:kind/:id', () => import('../desk/trace/TracePage.tsx')),
  page('/lots', () => import('../desk/lot/LotsPage.tsx'), 'more', 'Lots', 'Lotes de insumos'),
  page('/lot/:lotId', () => import('../desk/lot/LotPage.tsx')),
  page('/fields', () => import('../desk/field/FieldsPage.tsx'), 'more', 'Fields', 'Campos'),
  page('/field/:fieldId', () => import('../desk/field/FieldPage.tsx')),
  page(
    '/inspection',
    () => import('../desk/inspection/InspectionPage.tsx'),
    'more',
    'Inspection',
    'Inspección',
    'inspection',
  ),
  page('/reports', () => import('../desk/report/ReportsPage.tsx'), 'more', 'Reports', 'Informes'),
  page('/plan', () => import('../desk/plan/PlanPage.tsx'), 'more', 'Plan', 'Plan', 'members'),
  page('/rules', () => import('../desk/rules/RuleBookPage.tsx'), 'more', 'Rule book', 'Libro de reglas'),
  page('/registers', () => import('../desk/register/RegistersPage.tsx'), 'more', 'Registers', 'Equipos y materiales'),
  page(
    '/intake',
    () => import('../desk/intake/IntakePage.tsx'),
    'more',
    'Bring in a file',
    'Traer un archivo',
    'writers',
  ),
  page(
    '/access',
    () => import('../desk/access/AccessPage.tsx'),
    'more',
    'People and access',
    'Personas y acceso',
    'members',
  ),
  page(
    '/alerts',
    () => import('../desk/alerts/AlertsPage.tsx'),
    'more',
    'Alerts by e-mail',
    'Avisos por correo',
    'members',
  ),
  page(
    '/keeping',
    () => import('../desk/keeping/KeepingPage.tsx'),
    'more',
    'Keeping the log',
    'El cuidado del libro',
    'members',
  ),
  page('/setup', () => import('../desk/setup/SetupPage.tsx'), 'more', 'Set-up', 'Puesta en marcha', 'writers'),
  page(
    '/phone-alerts',
    () => import('../alerts/PhoneAlertsPage.tsx'),
    'more',
    'Alerts on this phone',
    'Avisos en este teléfono',
    'members',
  ),
  page('/waiting', () => import('../sync/WaitingPage.tsx'), 'bar', 'On this phone', 'En este teléfono', 'writers'),
  page('/hand', () => import('../hand/HandPage.tsx')),
  page('/more', () => import('./MorePage.tsx'), 'bar', 'More', 'Más'),
];
