import { readFileSync } from 'node:fs';
import ts from 'typescript';
import { instead } from './switches.mjs';

const K = ts.SyntaxKind;

/**
 * Every mutant of a source file, and the file with a switch at each of its places: comparisons, arithmetic, logic,
 * booleans, conditions and numbers; not imports, types, texts for people, nor what stands beside a property's name.
 *
 * The switches are calls of `$mutants` (see `switches.mjs`), which the file takes from `globalThis`. A mutant's `place` is the
 * number of the first one there: by it the file says that the place was come past.
 *
 * @param {string} path
 * @param {number} first the number of the first mutant; they are numbered as they stand in the file
 * @returns {{ code: string, mutants: { id: number, place: number, path: string, line: number, was: string, text: string }[] }}
 */
export function switched(path, first) {
  const source = readFileSync(path, 'utf8');
  const file = ts.createSourceFile(path, source, ts.ScriptTarget.Latest, true);
  const mutants = [];

  /** Notes a mutant for each text, and gives the number of the first. */
  function note(node, texts) {
    const was = node.getText(file);
    const line = file.getLineAndCharacterOfPosition(node.getStart(file)).line + 1;
    const place = first + mutants.length;
    for (const text of texts) mutants.push({ id: first + mutants.length, place, path, line, was, text });
    return place;
  }

  /** A node as it stands, with its own children switched. */
  function inside(node) {
    let code = '';
    let at = node.getStart(file);
    ts.forEachChild(node, (child) => {
      const start = child.getStart(file);
      code += source.slice(at, start) + node_(child);
      at = child.end;
    });
    return code + source.slice(at, node.end);
  }

  /** A condition that can be made to hold or not to hold; what it asks is not evaluated then. */
  function condition(node) {
    const id = note(node, ['true', 'false']);
    const code = node_(node);
    return waits(node) ? `$mutants.decided(${id}, ${code})` : `$mutants.condition(${id}, () => (${code}))`;
  }

  function node_(node) {
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node) || ts.isInterfaceDeclaration(node)) return inert(node);
    if (ts.isTypeAliasDeclaration(node)) return inert(node);
    if (ts.isBinaryExpression(node)) {
      const operator = node.operatorToken.getText(file);
      const texts = instead[operator];
      // Adding up texts is no arithmetic.
      const ofTexts = operator === '+' && /['`]/.test(node.getText(file));
      if (texts !== undefined && !ofTexts) {
        const lazy = operator === '&&' || operator === '||';
        if (lazy && waits(node.right)) return inside(node);
        const id = note(node, texts);
        const right = node_(node.right);
        const left = node_(node.left);
        return `$mutants.either(${id}, '${operator}', ${left}, ${lazy ? `() => (${right})` : right})`;
      }
    }
    if (ts.isIfStatement(node)) {
      const otherwise = node.elseStatement === undefined ? '' : ` else ${node_(node.elseStatement)}`;
      return `if (${condition(node.expression)}) ${node_(node.thenStatement)}${otherwise}`;
    }
    if (ts.isConditionalExpression(node)) {
      return `${condition(node.condition)} ? ${node_(node.whenTrue)} : ${node_(node.whenFalse)}`;
    }
    if (node.kind === K.TrueKeyword || node.kind === K.FalseKeyword) {
      const was = node.kind === K.TrueKeyword;
      return `$mutants.other(${note(node, [String(!was)])}, ${was}, ${!was})`;
    }
    if (ts.isPrefixUnaryExpression(node) && node.operator === K.ExclamationToken) {
      return `$mutants.not(${note(node, [node.operand.getText(file)])}, ${node_(node.operand)})`;
    }
    if (ts.isNumericLiteral(node) && !ts.isPropertyAssignment(node.parent)) {
      const was = Number(node.text.replaceAll('_', ''));
      return `$mutants.other(${note(node, [String(was + 1)])}, ${was}, ${was + 1})`;
    }
    return inside(node);
  }

  const inert = (node) => node.getText(file);
  const waits = (node) => /\b(?:await|yield)\b/.test(node.getText(file));
  const code = inside(file);
  return { code: `const $mutants = globalThis.$mutants; ${code}`, mutants };
}
