import { useEffect, useId, useRef, useState, type ReactNode } from 'react';
import { settings } from '../session/settings.ts';
import { useExternal } from '../store/external.ts';
import { useWordsOf } from '../words/useWords.ts';
import { plainFigure, writtenFigure } from './figure.ts';
import { deskWords } from './words.ts';

interface Common {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** Why it is asked, or what it is good for. */
  readonly help?: string;
  readonly optional?: boolean;
  /** Language of the label where it is not the page's. */
  readonly lang?: string;
}

interface TextProps extends Common {
  readonly type?: 'text' | 'date' | 'time' | 'datetime-local' | 'email' | 'password';
  readonly lines?: boolean;
  readonly autoComplete?: string;
  readonly inputMode?: 'numeric';
}

/** One thing to write, with its label and what it is good for. */
export function TextEntry({
  label,
  value,
  onChange,
  help,
  optional,
  lang,
  type = 'text',
  lines,
  autoComplete,
  inputMode,
}: TextProps) {
  const id = useId();
  const shared = {
    id,
    value,
    required: optional !== true,
    ...(help === undefined ? {} : { 'aria-describedby': `${id}-help` }),
  };
  return (
    <Labelled id={id} {...{ label, help, optional, lang }}>
      {lines === true ? (
        <textarea rows={3} {...shared} onChange={(event) => onChange(event.target.value)} />
      ) : (
        <input
          {...shared}
          type={type}
          inputMode={inputMode}
          autoComplete={autoComplete ?? 'off'}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </Labelled>
  );
}

interface FigureProps extends Common {
  /** May lie below zero. */
  readonly signed?: boolean;
}

/**
 * A figure to write, told on as plain text with a decimal point. No number field: a browser set to English drops a
 * decimal comma without a word, and 2,5 becomes 25.
 */
export function FigureEntry({ label, value, onChange, help, optional, lang, signed }: FigureProps) {
  const id = useId();
  const w = useWordsOf(deskWords);
  const { language } = useExternal(settings);
  const [text, setText] = useState(writtenFigure(value, language));
  const field = useRef<HTMLInputElement>(null);
  const told = plainFigure(text, language) ?? text;
  // A value that came from elsewhere, such as an emptied form's, takes the place of what was written.
  const shown = told === value ? text : writtenFigure(value, language);
  const plain = plainFigure(shown, language);
  const fault =
    shown.trim() === '' ? '' : plain === null ? w.noFigure : plain.startsWith('-') && signed !== true ? w.noMinus : '';
  useEffect(() => field.current?.setCustomValidity(fault), [fault]);
  return (
    <Labelled id={id} {...{ label, help, optional, lang }}>
      <input
        ref={field}
        id={id}
        type="text"
        inputMode={signed === true ? 'text' : 'decimal'}
        autoComplete="off"
        value={shown}
        required={optional !== true}
        aria-describedby={help === undefined ? undefined : `${id}-help`}
        onChange={({ target }) => {
          setText(target.value);
          onChange(plainFigure(target.value, language) ?? target.value);
        }}
      />
    </Labelled>
  );
}

interface SelectProps extends Common {
  readonly options: readonly (readonly [value: string, label: string])[];
}

/** One of a list. */
export function SelectEntry({ label, value, onChange, help, optional, options }: SelectProps) {
  const id = useId();
  return (
    <Labelled id={id} {...{ label, help, optional }}>
      <select
        id={id}
        value={value}
        required={optional !== true}
        aria-describedby={help === undefined ? undefined : `${id}-help`}
        onChange={(event) => onChange(event.target.value)}
      >
        {options.map(([each, text]) => (
          <option key={each} value={each}>
            {text}
          </option>
        ))}
      </select>
    </Labelled>
  );
}

interface LabelledProps {
  readonly id: string;
  readonly label: string;
  readonly help?: string | undefined;
  readonly optional?: boolean | undefined;
  readonly lang?: string | undefined;
  readonly children: ReactNode;
}

function Labelled({ id, label, help, optional, lang, children }: LabelledProps) {
  const w = useWordsOf(deskWords);
  return (
    <div className="entry">
      <label htmlFor={id} lang={lang}>
        {label} {optional === true && <span className="faint small">({w.optional})</span>}
      </label>
      {children}
      {help !== undefined && (
        <p id={`${id}-help`} className="faint small">
          {help}
        </p>
      )}
    </div>
  );
}
