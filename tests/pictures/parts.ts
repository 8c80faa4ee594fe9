import type { Part, StepPart } from '@quarrel/pictures';

/** Every step of a timeline, in program order. */
export function stepsIn(parts: readonly Part[]): readonly StepPart[] {
  return parts.flatMap((part): readonly StepPart[] => {
    switch (part.kind) {
      case 'step':
        return [part, ...stepsIn(part.meanwhile)];
      case 'branch':
        return part.ways.flatMap((way) => stepsIn(way.parts));
      case 'stop':
        return [];
      default:
        return stepsIn(part.parts);
    }
  });
}
