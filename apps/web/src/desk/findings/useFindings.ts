import type { Finding } from '@furrowmark/rules';
import { useState } from 'react';
import { useJudged } from '../../judge/useJudged.ts';
import { session } from '../../session/session.ts';
import { useExternal } from '../../store/external.ts';

/** Every finding of the season; null while they are worked out. What was known before stays in view meanwhile. */
export function useFindings(): readonly Finding[] | null {
  const operationId = useExternal(session)?.operationId ?? '';
  const [now] = useState(Date.now);
  return useJudged('findings', { now }, operationId);
}
