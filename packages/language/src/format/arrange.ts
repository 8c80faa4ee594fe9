import * as ast from '../generated/ast.js';
import { type Clause, foldDepth, foldsAlone, levelOf, nodesFrom, type Parting, partingBefore } from './places.js';
import type { Group, Piece } from './print.js';
import type { Comment, Gap, Word } from './words.js';

/** The columns by which a block stands further in than what it belongs to. */
const step = 2;

/** A group that is being filled: up to the end of a node, or up to the next clause that is not deeper than `level`. */
type OpenGroup = { readonly group: Group } & ({ readonly end: number } | { readonly level: number });

/**
 * Lays the words of a sheet out: what may be a line break, what must be one, and what folds together. All words and all
 * comments go in, in their order; only white space and `;` are made anew. An edit of a part of a sheet would be read off the
 * same pieces, gap by gap.
 */
export function arrange(words: readonly Word[], rest: Gap): readonly Piece[] {
  const arrangement = new Arrangement();
  for (const word of words) arrangement.add(word);
  arrangement.finish(rest);
  return arrangement.pieces;
}

class Arrangement {
  readonly pieces: Piece[] = [];
  private readonly open: OpenGroup[] = [];
  private previous: Word | undefined;
  /** The clause begun last. */
  private last: Clause | undefined;
  /** How deep the clause stands that is being laid out, or the block that has just been closed. */
  private level = 0;

  add(word: Word): void {
    const parting = partingBefore(word, this.previous, this.last);
    if (parting.kind === 'clause') {
      this.level = parting.clause.level;
      this.endDeeper(this.level - 1);
    } else if (word.text === '}') {
      this.level = levelOf(word.node);
      this.endDeeper(this.level);
    }
    const flat = this.flatPart(parting);
    if (word.before.comments.length > 0) this.partAround(parting, flat, word);
    else if (this.previous !== undefined) this.part(parting, flat, word);

    if (parting.kind === 'clause') this.begin({ group: { folded: false }, level: this.level });
    for (const { $cstNode } of nodesFrom(word).filter(foldsAlone)) {
      this.begin({ group: { folded: false }, end: $cstNode?.end ?? word.end });
    }
    this.write(word.text);
    for (let top = this.open.at(-1); top !== undefined && 'end' in top && top.end <= word.end; top = this.open.at(-1)) {
      this.open.pop();
    }
    if (parting.kind === 'clause' || parting.kind === 'joined') this.last = parting.clause;
    this.previous = word;
  }

  finish({ comments }: Gap): void {
    for (const comment of comments) {
      if (this.pieces.length > 0) {
        if (comment.breaks === 0) this.write(' ');
        else this.breakLine(0, comment.breaks > 1);
      }
      this.pieces.push(comment);
    }
  }

  /** What stands between two clauses on one line, and what a `;` that has to stay needs. */
  private flatPart(parting: Parting): string {
    if (parting.kind !== 'clause') return ' ';
    const { owner, type } = parting.clause;
    if (this.previous?.text === '{') return ' ';
    if (this.last?.owner !== owner) {
      // Clauses without braces: each begins a line, so that no word of theirs is read together with the one before.
      if (!ast.isSheet(owner)) this.foldAll();
      return ' ';
    }
    // Without `;` a source of the act would be one of the need above it.
    if (type !== 'source' || this.last.type !== ast.Need.$type) return '; ';
    this.write(';');
    return ' ';
  }

  /** Parts `word` from the one before it, where no comment stands between them. */
  private part(parting: Parting, flat: string, word: Word): void {
    const { breaks } = word.before;
    const group = this.open.at(-1)?.group;
    switch (parting.kind) {
      case 'nothing':
        break;
      case 'space':
      case 'joined':
        this.write(' ');
        break;
      case 'fold':
      case 'fill': {
        const indent = (this.level + foldDepth(word)) * step;
        const fills = parting.kind === 'fill';
        if (group === undefined) this.write(' ');
        else this.pieces.push({ kind: 'break', group, fills, flat, indent, empty: false });
        if (breaks > 0 && !fills) this.foldAll();
        break;
      }
      case 'clause':
      case 'close': {
        const empty = parting.kind === 'clause' && breaks > 1 && this.previous?.text !== '{';
        const indent = this.level * step;
        this.pieces.push({
          kind: 'break',
          ...(group === undefined ? {} : { group }),
          fills: false,
          flat,
          indent,
          empty,
        });
        if (breaks > 0) this.foldAll();
        break;
      }
    }
  }

  /** Parts `word` from the one before it around the comments between them. */
  private partAround(parting: Parting, flat: string, word: Word): void {
    const { comments, breaks, separatedAfter = 0 } = word.before;
    const parts = [...comments, { kind: 'word', breaks } as const];
    if (parts.some((one) => one.breaks > 0)) {
      this.foldAll();
      this.partAsAuthored(parting, parts, word);
      return;
    }
    if (comments.some(({ lines }) => lines.length > 1)) this.foldAll();
    const home = parting.kind === 'close' ? comments.length : separatedAfter;
    for (const [at, one] of parts.entries()) {
      const isLast = one.kind === 'word';
      const touches = isLast ? isTouching(parting, word) : at === 0 && isTouching(parting, this.previous);
      if (at === home && parting.kind !== 'nothing' && this.previous !== undefined) this.part(parting, flat, word);
      else if (!touches && this.pieces.length > 0) this.write(' ');
      if (one.kind === 'comment') this.pieces.push(one);
    }
  }

  /** Where the author broke a line beside a comment, the line breaks are his: the comment stays beside what it speaks of. */
  private partAsAuthored(
    parting: Parting,
    parts: readonly (Comment | { readonly kind: 'word'; readonly breaks: number })[],
    word: Word,
  ): void {
    const inBlock = parting.kind === 'clause' || parting.kind === 'close';
    let atEdge = this.previous?.text === '{';
    for (const one of parts) {
      const closes = parting.kind === 'close' && one.kind === 'word';
      if (one.breaks === 0) {
        if (this.pieces.length > 0) this.write(' ');
      } else {
        const indent = closes ? this.level * step : this.indentBeside(parting, word);
        if (this.pieces.length > 0) this.breakLine(indent, inBlock && one.breaks > 1 && !atEdge && !closes);
        atEdge = false;
      }
      if (one.kind === 'comment') this.pieces.push(one);
    }
  }

  /** Where a line begins that a comment between two words makes necessary. */
  private indentBeside(parting: Parting, word: Word): number {
    if (parting.kind === 'clause') return this.level * step;
    if (parting.kind === 'close') return (this.level + 1) * step;
    const beside = word.text === '{' || this.previous?.text === '}';
    return (this.level + (beside ? 0 : foldDepth(word))) * step;
  }

  private write(text: string): void {
    this.pieces.push({ kind: 'text', text });
  }

  private breakLine(indent: number, empty: boolean): void {
    this.pieces.push({ kind: 'break', fills: false, flat: '', indent, empty });
  }

  private begin(group: OpenGroup): void {
    this.open.push(group);
    this.pieces.push({ kind: 'group', group: group.group });
  }

  private foldAll(): void {
    for (const { group } of this.open) group.folded = true;
  }

  /** Ends the groups of clauses deeper than `level`. */
  private endDeeper(level: number): void {
    for (let top = this.open.at(-1); top !== undefined && 'level' in top && top.level > level; top = this.open.at(-1)) {
      this.open.pop();
    }
  }
}

/** Whether nothing stands between a mark and what it belongs to, be that a word or a comment. */
function isTouching(parting: Parting, word: Word | undefined): boolean {
  return parting.kind === 'nothing' && word !== undefined && [',', ':', '(', ')'].includes(word.text);
}
