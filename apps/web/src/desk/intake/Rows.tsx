import { useWordsOf } from '../../words/useWords.ts';
import { shownOf } from './rowText.ts';
import type { Preview, RowState } from './preview.ts';
import { intakeWords } from './words.ts';
import { Told } from '../../refusals/Told.tsx';

const most = 100;
const marks: Readonly<Record<RowState, string>> = { good: '●', known: '–', leftOut: '–', wrong: '✕' };

/** Row by row: what it would become, or what is wrong with it and in which column. The wrong ones first. */
export function Rows({ preview }: { readonly preview: Preview }) {
  const w = useWordsOf(intakeWords);
  const rows = preview.rows
    .toSorted((a, b) => Number(b.state === 'wrong') - Number(a.state === 'wrong') || a.line - b.line)
    .slice(0, most);
  if (rows.length === 0) return null;
  return (
    <div className="table-wrap" tabIndex={0} role="region" aria-label={w.rows}>
      <table>
        <thead>
          <tr>
            <th scope="col" className="number">
              {w.line}
            </th>
            <th scope="col">{w.state}</th>
            <th scope="col">{w.what}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.line}>
              <td className="number">{row.line}</td>
              <td>
                <span
                  className={row.state === 'wrong' ? 'verdict broken' : row.state === 'good' ? 'verdict met' : 'faint'}
                >
                  <span aria-hidden="true">{marks[row.state]}</span> {w[`state_${row.state}`]}
                </span>
              </td>
              <td>
                {row.problems.map(({ column, detail }) => (
                  <span key={`${column ?? ''}${detail}`} className="row-problem">
                    {column === null ? '' : `${column}: `}
                    <Told text={detail} />
                  </span>
                ))}
                {row.state === 'good' && <span>{shownOf(row.records)}</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {preview.rows.length > most && <p className="faint">{w.moreRows(preview.rows.length - most)}</p>}
    </div>
  );
}
