import { readFileSync } from 'node:fs';
import ts from 'typescript';

const K = ts.SyntaxKind;

/** What stands in place of an operator: neighbours that a test of the boundary tells apart. */
const instead = new Map([
  [K.LessThanToken, ['<=', '>']],
  [K.LessThanEqualsToken, ['<', '>']],
  [K.GreaterThanToken, ['>=', '<']],
  [K.GreaterThanEqualsToken, ['>', '<']],
  [K.EqualsEqualsEqualsToken, ['!==']],
  [K.ExclamationEqualsEqualsToken, ['===']],
  [K.PlusToken, ['-']],
  [K.MinusToken, ['+']],
  [K.AsteriskToken, ['/']],
  [K.SlashToken, ['*']],
  [K.AmpersandAmpersandToken, ['||']],
  [K.BarBarToken, ['&&']],
]);

/**
 * Every mutant of a source file: a piece of its text and what stands there instead. Comparisons, arithmetic, logic,
 * booleans, conditions and numbers; not imports, types, texts for people, nor property names.
 *
 * @param {string} path
 * @returns {{ path: string, start: number, end: number, text: string, was: string, line: number }[]}
 */
export function mutantsOf(path) {
  const source = readFileSync(path, 'utf8');
  const file = ts.createSourceFile(path, source, ts.ScriptTarget.Latest, true);
  const found = [];
  const replace = (node, text) => {
    const start = node.getStart(file);
    const line = file.getLineAndCharacterOfPosition(start).line + 1;
    found.push({ path, start, end: node.end, text, was: source.slice(start, node.end), line });
  };
  const visit = (node) => {
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node) || ts.isInterfaceDeclaration(node)) return;
    if (ts.isTypeAliasDeclaration(node)) return;
    // Adding up texts is no arithmetic.
    if (ts.isBinaryExpression(node) && !(node.operatorToken.kind === K.PlusToken && /['`]/.test(node.getText(file)))) {
      for (const text of instead.get(node.operatorToken.kind) ?? []) replace(node.operatorToken, text);
    }
    if (ts.isIfStatement(node)) for (const text of ['true', 'false']) replace(node.expression, text);
    if (ts.isConditionalExpression(node)) for (const text of ['true', 'false']) replace(node.condition, text);
    if (node.kind === K.TrueKeyword) replace(node, 'false');
    if (node.kind === K.FalseKeyword) replace(node, 'true');
    if (ts.isPrefixUnaryExpression(node) && node.operator === K.ExclamationToken)
      replace(node, node.operand.getText(file));
    if (ts.isNumericLiteral(node) && !ts.isPropertyAssignment(node.parent))
      replace(node, String(Number(node.text.replaceAll('_', '')) + 1));
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}
