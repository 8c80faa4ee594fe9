import { ruleCatalogue } from '@quarrel/checks';
import { ast, type VisibleNames } from '@quarrel/language';
import { CompletionItemKind } from 'vscode-languageserver';
import { overlap, rangeOf } from '../../check/places.js';
import { catalogueHover } from '../hover/rule.js';
import { isWithin, metIn, type Thread } from '../place/threads.js';
import { type Asked, type Declared, declared, named } from './asked.js';
import { clausesBefore, clausesOf, madeBy, namesIn } from './clauses.js';
import { type Offer, offerOf } from './offer.js';
import { readinessAt } from './readiness.js';

/** The names that may stand where one of a kind is referred to, those that make most sense first. */
export function namesFor(thread: Thread, asked: Asked): readonly Offer[] {
  const { frame, expected } = thread;
  switch (expected.refers) {
    case 'Act':
      return expected.rule === 'Do' ? acts(asked) : named(asked, 'act').flatMap((node) => offerOf(node, 1));
    case 'Hazard':
      return expected.rule === 'Caution' ? cautions(asked) : named(asked, 'hazard').flatMap((node) => offerOf(node, 1));
    case 'Subject':
      return subjects(thread, asked);
    case 'Observation':
    case 'Reading':
      return found(asked, expected.refers);
    case 'State':
      return named(asked, 'subject')
        .filter(ast.isState)
        .flatMap((node) => offerOf(node, 1));
    case 'Value':
      return values(thread, asked);
    case 'Thing':
      return things(kindIn(thread), asked);
    case 'Usable':
      return [...chooses(asked), ...things(undefined, asked)];
    case 'Limits':
      return named(asked, 'limits').flatMap((node) => offerOf(node, 1));
    case 'Waivable':
      return waivable(asked);
    case 'Performable':
      return named(asked, 'procedure').flatMap((node) => offerOf(node, 1));
    case 'Step':
      return steps(metIn(frame, 'Example', 'procedure')[0] ?? metIn(frame, 'Variation', 'base')[0], asked);
    default:
      return [];
  }
}

function kindIn({ frame, expected }: Thread): string | undefined {
  return metIn(frame, expected.rule === 'Exchange' ? 'Exchange' : 'Choose', 'kind')[0];
}

/** Acts that may be done here, then those that may in some situations, then all others. */
function acts(asked: Asked): readonly Offer[] {
  const made = madeBy(namesIn(clausesBefore(asked), 'do'), asked);
  const readiness = readinessAt(asked, made);
  return named(asked, 'act').flatMap((node) => {
    const here = node.name === undefined ? undefined : readiness?.(node.name);
    return offerOf(node, here?.rank ?? 1, here?.detail);
  });
}

/** Hazards that the acts of this step raise and that nothing has announced, then those they raise, then all others. */
function cautions(asked: Asked): readonly Offer[] {
  const { known, step } = asked;
  const record = known === undefined || step === undefined ? undefined : known.run?.steps[known.steps.indexOf(step)];
  const nowhere = known?.run?.situations.store.nowhere;
  const open = new Set(
    (record?.acts ?? []).flatMap(({ unannounced }) =>
      unannounced.filter(({ region }) => region !== nowhere).map(({ hazard }) => hazard),
    ),
  );
  const raised = new Set(
    namesIn(clausesOf(asked), 'do').flatMap((name) => {
      const act = declared(asked, 'act', name);
      return ast.isAct(act) ? act.raises.map(({ $refText }) => $refText) : [];
    }),
  );
  const announced = new Set(namesIn(clausesOf(asked), 'caution'));
  return named(asked, 'hazard').flatMap((node) => {
    if (node.name === undefined || announced.has(node.name)) return [];
    if (open.has(node.name)) return offerOf(node, 0, 'raised here, not announced yet');
    if (raised.has(node.name))
      return offerOf(node, 1, known?.run === undefined ? 'raised here' : 'raised here, announced before');
    return offerOf(node, 2);
  });
}

/** Conditions that are known here first; states where an act or a rule may ask about them. */
function subjects({ frame }: Thread, asked: Asked): readonly Offer[] {
  const isAskedOfStates = isWithin(frame, 'Need') || isWithin(frame, 'Final');
  const nodes = named(asked, 'subject').filter((node) => isAskedOfStates || !ast.isState(node));
  const isInFlow = isWithin(frame, 'WhenCase') || isWithin(frame, 'Otherwise') || isWithin(frame, 'ChooseCase');
  return nodes.flatMap((node) => {
    if (isAskedOfStates) return offerOf(node, ast.isState(node) ? 1 : 2);
    const knowledge = isInFlow && node.name !== undefined ? knowledgeOf(node.name, asked) : undefined;
    return offerOf(node, knowledge?.rank ?? 1, knowledge?.detail);
  });
}

/** What is found out: what is not known here first. */
function found(asked: Asked, type: 'Observation' | 'Reading'): readonly Offer[] {
  const listed = new Set(asked.place.item.map(({ image }) => image));
  return named(asked, 'subject')
    .filter(
      (node) =>
        (type === 'Observation' ? ast.isObservation(node) : ast.isReading(node)) && !listed.has(node.name ?? ''),
    )
    .flatMap((node) => {
      const knowledge = node.name === undefined ? undefined : knowledgeOf(node.name, asked);
      return offerOf(
        node,
        knowledge === undefined ? 1 : 2 - knowledge.rank,
        knowledge?.rank === 0 ? 'known here already' : knowledge?.detail,
      );
    });
}

function knowledgeOf(
  name: string,
  { known, moment }: Asked,
): { readonly rank: number; readonly detail: string } | undefined {
  const run = known?.run;
  if (run === undefined || moment === undefined || run.situations.levelOf(name) === undefined) return undefined;
  const { store } = run.situations;
  const isSomewhere = store.and(moment.reached, moment.mayKnow(name)) !== store.nowhere;
  if (!isSomewhere) return { rank: 2, detail: 'not known here' };
  const isOpen = store.and(moment.reached, moment.mayNotKnow(name)) !== store.nowhere;
  return isOpen ? { rank: 1, detail: 'known in some situations here' } : { rank: 0, detail: 'known here' };
}

/** The values of what is asked about; those that earlier cases ask about last, those of this list not at all. */
function values({ frame, expected }: Thread, asked: Asked): readonly Offer[] {
  const isState = expected.rule === 'StateValue';
  const subject = metIn(frame, expected.rule, isState ? 'state' : 'subject')[0];
  const node = declared(asked, 'subject', subject);
  if (!ast.isObservation(node) && !ast.isState(node)) return [];
  const listed = new Set(metIn(frame, expected.rule, 'values'));
  const covered = isState ? new Set<string>() : coveredValues(node.name, asked);
  return node.values.flatMap((value, at) =>
    listed.has(value.name)
      ? []
      : offerOf(
          value,
          covered.has(value.name) || (isState && at === 0) ? 2 : 1,
          covered.has(value.name) ? 'asked for in an earlier case' : `value of ${node.name}`,
        ),
  );
}

/** The values that the cases before this one ask about. */
function coveredValues(subject: string, { place }: Asked): ReadonlySet<string> {
  const top = place.levels.at(-1);
  const isChoose = top?.frame?.rule === 'Choose';
  const tokens = isChoose ? top.items.filter(({ isBehind }) => !isBehind).flatMap((item) => item.tokens) : place.item;
  const found = new Set<string>();
  for (const [at, { image, tokenType }] of tokens.entries()) {
    if (
      image !== subject ||
      tokenType.name !== 'ID' ||
      tokens[at + 1]?.image !== 'is' ||
      tokens[at + 2]?.image === 'not'
    )
      continue;
    for (let next = at + 2; tokens[next]?.tokenType.name === 'ID' || tokens[next]?.image === ','; next += 1) {
      const value = tokens[next]?.image;
      if (value !== undefined && value !== ',') found.add(value);
    }
  }
  return found;
}

function things(kind: string | undefined, asked: Asked): readonly Offer[] {
  return named(asked, 'thing')
    .filter((node) => ast.isThing(node) && (kind === undefined || node.kind === kind))
    .flatMap((node) => offerOf(node, 1));
}

function chooses({ procedure, services }: Asked): readonly Offer[] {
  if (procedure === undefined) return [];
  return nodesOf(services.names.VisibleNames.choosesOf(procedure)).flatMap((node) => offerOf(node, 0));
}

/** Rules that are broken at this step first, or in this procedure where the waiver is for all of it. */
function waivable(asked: Asked): readonly Offer[] {
  const { known, step } = asked;
  const place = step?.whole ?? known?.report.procedure.clauses;
  const findings = (known?.report.findings ?? []).filter(
    ({ range }) => place !== undefined && overlap(rangeOf(range), rangeOf(place)),
  );
  const broken = new Set(findings.map(({ rule }) => rule));
  const rank = (name: string | undefined): number => (name !== undefined && broken.has(name) ? 0 : 1);
  const detail = (name: string | undefined): string | undefined =>
    rank(name) === 0 ? (step === undefined ? 'found in this procedure' : 'found at this step') : undefined;
  return [
    ...named(asked, 'rule').flatMap((node) => offerOf(node, rank(node.name), detail(node.name))),
    ...ruleCatalogue
      .filter(({ family }) => family !== 'text')
      .map(({ name, title }) => ({
        label: name,
        kind: CompletionItemKind.Interface,
        rank: rank(name) * 2,
        detail: detail(name) ?? 'rule of Quarrel',
        words: title,
        documentation: catalogueHover(name) ?? '',
      })),
  ];
}

/** The steps of a procedure or a variation, and of what that is a variation of. */
function steps(base: string | undefined, asked: Asked): readonly Offer[] {
  const { VisibleNames } = asked.services.names;
  const offers: Offer[] = [];
  const met = new Set<Declared>();
  for (let node = declared(asked, 'procedure', base); node !== undefined && !met.has(node); ) {
    met.add(node);
    if (!ast.isProcedure(node) && !ast.isVariation(node)) break;
    offers.push(...nodesOf(VisibleNames.stepsOf(node)).flatMap((step) => offerOf(step, 1)));
    node = ast.isVariation(node) ? declared(asked, 'procedure', node.base?.$refText) : undefined;
  }
  return offers;
}

function nodesOf(table: ReturnType<VisibleNames['stepsOf']>): readonly Declared[] {
  return [...table.values()].flatMap(({ node }) => node ?? []);
}
