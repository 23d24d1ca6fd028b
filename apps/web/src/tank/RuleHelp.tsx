import { useEffect, useId, useState } from 'react';
import { loadEngine, type Engine } from '../season/engine.ts';
import { ruleTitle } from '../verdict/rules.ts';
import { useWords } from '../words/useWords.ts';
import { useTankWords } from './useTank.ts';

/** A question mark beside a limit: why the rule exists, and its source. */
export function RuleHelp({ ruleId }: { readonly ruleId: string }) {
  const { w, language } = useTankWords();
  const shell = useWords();
  const id = useId();
  const [open, setOpen] = useState(false);
  const [engine, setEngine] = useState<Engine | null>(null);
  useEffect(() => {
    void loadEngine().then(setEngine, () => undefined);
  }, []);
  const rule = engine?.rules.ruleById(ruleId);
  if (rule === undefined) return null;
  const title = ruleTitle(rule.id, rule.title, language);
  return (
    <>
      <button
        type="button"
        className="help"
        aria-expanded={open}
        aria-controls={id}
        aria-label={w.helpWith(title)}
        onClick={() => setOpen(!open)}
      >
        ?
      </button>
      {open && (
        <div id={id} className="help-text">
          <p>
            <strong>{title}.</strong> {engine?.rules.reasonIn(rule.id, rule.reason, language)}
          </p>
          <p className="faint small">
            {shell.source}: {engine?.rules.sourceIn(rule.citation, language)}
          </p>
        </div>
      )}
    </>
  );
}
