/**
 * Colours text with a TextMate grammar, as far as ours goes: matches, stretches from `begin` to `end`, references.
 * `while` and references to other grammars are left out.
 */
import type { Scoped, TextMateGrammar, TextMateRule } from '../../grammar/editor/textmate.js';

/** A piece of a line with its scopes, the outermost first. */
export interface Coloured {
  readonly text: string;
  readonly scopes: readonly string[];
}

const compiled = new Map<string, RegExp>();
function find(pattern: string, line: string, at: number): RegExpExecArray | null {
  let regExp = compiled.get(pattern);
  if (!regExp) {
    regExp = new RegExp(pattern, 'dgu');
    compiled.set(pattern, regExp);
  }
  regExp.lastIndex = at;
  return regExp.exec(line);
}

/** The rules that may match, with references and plain lists opened out. */
function flat(rules: readonly TextMateRule[], grammar: TextMateGrammar): TextMateRule[] {
  return rules.flatMap((rule) => {
    if (rule.include) return flat([referred(rule.include, grammar)], grammar);
    return rule.patterns && !rule.begin ? flat(rule.patterns, grammar) : [rule];
  });
}
function referred(include: string, grammar: TextMateGrammar): TextMateRule {
  const rule = grammar.repository[include.slice(1)];
  if (!rule) throw new Error(`The grammar has no rule ${include}`);
  return rule;
}

/** Every line in pieces. */
export function colour(grammar: TextMateGrammar, lines: readonly string[]): Coloured[][] {
  const open: TextMateRule[] = [];
  return lines.map((line) => {
    const pieces: Coloured[] = [];
    const scopesNow = () => open.flatMap((rule) => rule.name ?? []);
    const add = (from: number, to: number, extra: readonly string[]) => {
      if (to > from) pieces.push({ text: line.slice(from, to), scopes: [...scopesNow(), ...extra] });
    };
    const addMatch = (m: RegExpExecArray, captures: Readonly<Record<string, Scoped>> = {}, name?: string) => {
      const own = name ? [name] : [];
      let at = m.index;
      for (const [group, { name: scope }] of Object.entries(captures)) {
        const range = m.indices?.[Number(group)];
        if (!range) continue;
        add(at, range[0], own);
        add(range[0], range[1], [...own, scope]);
        at = range[1];
      }
      add(at, m.index + m[0].length, own);
    };
    let at = 0;
    // A position is left after a few rounds at most: one that is not shows a grammar that runs in circles.
    for (let rounds = 0; at <= line.length; rounds++) {
      if (rounds > 10 * line.length + 100) throw new Error(`The grammar runs in circles on ${JSON.stringify(line)}`);
      const inner = open.at(-1);
      const end = inner?.end ? find(inner.end, line, at) : null;
      let best: { rule: TextMateRule; m: RegExpExecArray } | undefined;
      for (const rule of flat(inner?.patterns ?? grammar.patterns, grammar)) {
        const m = find(rule.match ?? rule.begin ?? '(?!)', line, at);
        if (m && (!best || m.index < best.m.index)) best = { rule, m };
      }
      if (end && (!best || end.index <= best.m.index)) {
        add(at, end.index, []);
        addMatch(end, inner?.endCaptures);
        open.pop();
        at = end.index + end[0].length;
      } else if (best) {
        const { rule, m } = best;
        add(at, m.index, []);
        if (rule.begin) open.push(rule);
        addMatch(m, rule.captures ?? rule.beginCaptures, rule.begin ? undefined : rule.name);
        at = m.index + m[0].length;
      } else {
        add(at, line.length, []);
        break;
      }
    }
    return pieces;
  });
}

/** The innermost scope of a text that stands once on the line. */
export function scopeOf(pieces: readonly Coloured[], text: string): string | undefined {
  const found = pieces.filter((piece) => piece.text === text);
  return found.length === 1 ? found[0].scopes.at(-1) : undefined;
}
