import { GrammarAST } from 'langium';

/** A word or a sign that the grammar has at one place. */
export interface Expected {
  /** The rule that it stands in, and the property it is for. */
  readonly rule: string;
  readonly feature?: string;
  /** The word itself, or else what kind of word it is: `ID`, `STRING`, `NUMBER`, `UNIT`. */
  readonly keyword?: string;
  readonly terminal?: string;
  /** What a name here refers to: `Act`, `Subject`. */
  readonly refers?: string;
}

/** A point between words. */
export interface Point {
  readonly id: number;
  readonly ways: Way[];
}

export type Way =
  | { readonly kind: 'on'; readonly to: Point }
  | { readonly kind: 'word'; readonly expected: Expected; readonly to: Point }
  | {
      readonly kind: 'rule';
      readonly rule: string;
      readonly feature?: string;
      readonly isWord: boolean;
      readonly to: Point;
    };

/** A rule of the grammar as ways from point to point. */
export interface RuleNet {
  readonly start: Point;
  readonly end: Point;
}

export type Net = ReadonlyMap<string, RuleNet>;

/** The grammar as a net of ways: what may follow what, whatever has gone wrong before. */
export function netOf(grammar: GrammarAST.Grammar): Net {
  const builder = new Builder();
  return new Map(grammar.rules.filter(GrammarAST.isParserRule).map((rule) => [rule.name, builder.rule(rule)]));
}

class Builder {
  #points = 0;

  rule({ name, definition }: GrammarAST.ParserRule): RuleNet {
    const start = this.#point();
    return { start, end: this.#element(definition, start, { rule: name }) };
  }

  /** Lays the ways of an element from `from` on, and gives the point behind it. */
  #element(element: GrammarAST.AbstractElement, from: Point, place: Pick<Expected, 'rule' | 'feature'>): Point {
    const start = this.#point();
    from.ways.push({ kind: 'on', to: start });
    const end = this.#once(element, start, place);
    const { cardinality } = element;
    if (cardinality === '*' || cardinality === '+') end.ways.push({ kind: 'on', to: start });
    if (cardinality === '*' || cardinality === '?') start.ways.push({ kind: 'on', to: end });
    if (cardinality === undefined) return end;
    // A point of its own behind a loop, so that what follows is not gone through in it.
    const behind = this.#point();
    end.ways.push({ kind: 'on', to: behind });
    return behind;
  }

  #once(element: GrammarAST.AbstractElement, from: Point, place: Pick<Expected, 'rule' | 'feature'>): Point {
    if (GrammarAST.isGroup(element)) {
      return element.elements.reduce((point, part) => this.#element(part, point, place), from);
    }
    const to = this.#point();
    if (GrammarAST.isAlternatives(element)) {
      for (const part of element.elements) this.#element(part, from, place).ways.push({ kind: 'on', to });
    } else if (GrammarAST.isAssignment(element)) {
      this.#element(element.terminal, from, { ...place, feature: element.feature }).ways.push({ kind: 'on', to });
    } else if (GrammarAST.isKeyword(element)) {
      from.ways.push({ kind: 'word', expected: { ...place, keyword: element.value }, to });
    } else if (GrammarAST.isCrossReference(element)) {
      from.ways.push({ kind: 'word', expected: { ...place, terminal: 'ID', refers: element.type.$refText }, to });
    } else if (GrammarAST.isRuleCall(element)) {
      from.ways.push(this.#call(element, to, place));
    } else {
      from.ways.push({ kind: 'on', to });
    }
    return to;
  }

  #call({ rule }: GrammarAST.RuleCall, to: Point, { rule: within, feature }: Pick<Expected, 'rule' | 'feature'>): Way {
    const called = rule.ref;
    const purpose = feature === undefined ? {} : { feature };
    if (GrammarAST.isTerminalRule(called)) {
      return { kind: 'word', expected: { rule: within, ...purpose, terminal: called.name }, to };
    }
    // A rule that gives a text, such as the kinds of things, counts as a word of the rule around it.
    const isWord = GrammarAST.isParserRule(called) && (called.dataType ?? called.returnType?.$refText) === 'string';
    return { kind: 'rule', rule: rule.$refText, ...purpose, isWord, to };
  }

  #point(): Point {
    this.#points += 1;
    return { id: this.#points, ways: [] };
  }
}
