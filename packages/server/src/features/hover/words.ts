/** What a word of the language is for. */
export interface WordHelp {
  /** One sentence, or one for each place where the word stands. */
  readonly says: string;
  /** How it is written. */
  readonly example: string;
}

/** Every word of the language, once. */
const words: Readonly<Record<string, WordHelp>> = {
  // Sheets
  use: {
    says: 'Takes in what another sheet declares; in a variation, takes one thing instead of another.',
    example: 'use "quarrel:laminated-glass"',
  },

  // What a job can be like
  observation: {
    says: 'Declares a condition that is seen by eye and has one of its values.',
    example: 'observation break "Break type": bullseye, star',
  },
  reading: {
    says: 'Declares a condition that an instrument shows, and the range it can show.',
    example: 'reading glass-temperature: -20 °C to 60 °C',
  },

  // What the work changes, does and fears
  state: {
    says: 'Declares something that the work changes; the first value is the one a job starts with.',
    example: 'state seal: off, seated, tight',
  },
  act: {
    says: 'Declares something that steps do: what it needs before, what it makes, which hazards it raises.',
    example: 'act seal { needs seal is seated; makes seal tight }',
  },
  needs: { says: 'What has to be so before the act is done.', example: 'needs cavity is filled as cure-after-fill' },
  as: {
    says: 'Gives a need the name that its findings carry, and that a waiver speaks of.',
    example: 'needs cavity is filled as cure-after-fill',
  },
  makes: { says: 'The value that a state has once the act is done.', example: 'makes cavity cured' },
  raises: { says: 'The hazards that come with the act; a step has to announce them.', example: 'raises uv' },
  hazard: {
    says: 'Declares what can hurt, with its signal word and what protects from it.',
    example: 'hazard uv "UV light" warning { wear "glasses that block UV" }',
  },
  danger: {
    says: 'Signal word: if it is not avoided, it will kill or badly injure someone.',
    example: 'hazard traffic "Moving traffic" danger',
  },
  warning: {
    says: 'Signal word of a hazard that could kill or badly injure someone; as a severity, a finding that a reviewer asks about.',
    example: 'hazard uv "UV light" warning',
  },
  notice: {
    says: 'Signal word: things can be damaged, people are not hurt.',
    example: 'hazard stain "Stained trim" notice',
  },
  wear: { says: 'Something to wear against a hazard.', example: 'wear "cut-resistant gloves"' },
  because: {
    says: 'The reason, in words that a finding repeats.',
    example: 'because "Curing locks in whatever air is left."',
  },
  source: {
    says: 'Where a statement comes from: a standard, a datasheet, or common practice.',
    example: 'source "common practice"',
  },

  // Rules
  rule: {
    says: 'Declares what is asked of the order and the times of acts, of holds, or of the end.',
    example: 'rule film-first { cover-pit comes before cure-pit }',
  },
  comes: { says: 'Asks that one act is done before another.', example: 'cover-pit comes before cure-pit' },
  before: {
    says: 'Stands between what comes first and what comes later; in a variation, puts steps before a step.',
    example: 'cover-pit comes before cure-pit',
  },
  after: {
    says: 'Names the act that something follows, or must not follow; in a variation, puts steps behind a step.',
    example: 'after draw-vacuum, press-resin follows within 10 min',
  },
  follows: {
    says: 'Asks that an act is answered by another one later on.',
    example: 'after draw-vacuum, press-resin follows',
  },
  within: {
    says: 'In a rule, the most time from one step to the other; in a procedure, the limits it keeps.',
    example: 'after draw-vacuum, press-resin follows within 10 min',
  },
  no: { says: 'Asks that an act is never done behind another one.', example: 'no flex after cure' },
  the: { says: 'Part of `at the end`, which asks how the work is left.', example: 'at the end pit is polished' },
  end: { says: 'Part of `at the end`, which asks how the work is left.', example: 'at the end pit is polished' },
  severity: { says: 'How serious a finding of the rule is: error, warning or info.', example: 'severity warning' },
  error: {
    says: 'The severity of what would spoil the work or hurt someone; the procedure is not compiled.',
    example: 'severity error',
  },
  info: { says: 'The severity of what is worth knowing and stops nobody.', example: 'severity info' },

  // Things
  tool: { says: 'Declares a tool.', example: 'tool probe "Fixed probe"' },
  resin: {
    says: 'Declares a resin, with the values of its datasheet.',
    example: 'resin thin { viscosity 35 mPa·s at 20 °C; works from 5 °C to 32 °C }',
  },
  lamp: {
    says: 'Declares a curing lamp, with the values of its datasheet.',
    example: 'lamp bench { irradiance 25 mW/cm² at 30 mm; wavelength 365 nm }',
  },
  injector: {
    says: 'Declares an injector, with the vacuum and the pressure it reaches.',
    example: 'injector small { vacuum 85 %; pressure 200 kPa }',
  },
  consumable: { says: 'Declares something that is used up.', example: 'consumable curing-film "Curing film"' },
  under: { says: 'The light under which a time on a datasheet holds.', example: 'open-time 4 min under 1 mW/cm²' },

  // Limits and estimates
  limits: {
    says: 'Declares a profile of what may be repaired; a procedure keeps `within limits` of it.',
    example: 'limits house { allows damage-size at most 40 mm }',
  },
  allows: {
    says: 'What has to hold in every situation that may be repaired.',
    example: 'allows damage-size at most 30 mm when zone is driver-view',
  },
  assume: {
    says: 'Says what estimates of one topic take for granted where nothing is measured.',
    example: 'assume filling { gap 20 µm }',
  },
  during: { says: 'The acts during which it happens what is estimated.', example: 'during press-resin' },

  // A procedure
  procedure: {
    says: 'Begins a procedure: what it covers, and its steps in order.',
    example: 'procedure stone-chip "Stone-chip repair" { … }',
  },
  revision: { says: 'The number or date of this version, shown on every checklist.', example: 'revision "4"' },
  covers: {
    says: 'The situations the procedure is for; every line has to hold. Without it, every situation.',
    example: 'covers { break is star; glass-temperature from 5 °C to 35 °C }',
  },
  choose: {
    says: 'Declares which thing to take in which situation; exactly one case has to fit.',
    example: 'choose resin fill { when break is star: thin; otherwise: medium }',
  },
  stage: { says: 'Groups steps under a heading.', example: 'stage "Fill" { … }' },
  when: {
    says: 'Does, chooses or asks something only in the situations in which the test holds.',
    example: 'when sunlight is direct { step "Put up the sunshade" }',
  },
  otherwise: {
    says: 'What is done or chosen where none of the cases above holds.',
    example: 'when break is star { … } otherwise { … }',
  },
  repeat: {
    says: 'Goes through its steps again until the goal is seen; the goal is looked at after each pass.',
    example: 'repeat at most 3 times until "Every leg is dark" { … }',
  },
  times: { says: 'Behind the most passes of a repeat.', example: 'repeat at most 3 times { … }' },
  until: {
    says: 'The goal of a repeat, in words for the eye.',
    example: 'repeat at most 3 times until "Every leg is dark" { … }',
  },
  confirms: { says: 'What seeing it tells about a state.', example: 'check "The cone is dark" confirms cavity filled' },
  stop: {
    says: 'Ends the work here, with the reason the technician reads.',
    example: 'stop "Refer the glass for replacement."',
  },
  else: {
    says: 'Part of `or else stop`: what happens where it is not seen, or not reached.',
    example: 'check "No leg shines" or else stop "Refer the glass."',
  },

  // A step
  step: {
    says: 'One thing to do, as the technician reads it; a name before the text lets others speak of it.',
    example: 'step draw "Draw vacuum" { do draw-vacuum; hold 15 s to 30 s }',
  },
  do: {
    says: 'The acts of a step, in order; under a hazard, something to do against it.',
    example: 'do seat-injector, seal',
  },
  with: { says: 'What is taken in hand: a thing, or a choice of things.', example: 'with fill amount 4 to 6 drops' },
  amount: { says: 'How much of it.', example: 'with fill amount 4 to 6 drops' },
  takes: { says: 'The hands-on time of a step, from the least to the most.', example: 'takes 10 s to 20 s' },
  hold: {
    says: 'The waiting time of a step, which gets a timer; in a rule, the hold of an act.',
    example: 'hold 1 min to 2 min',
  },
  observe: { says: 'Finds out a condition that is seen by eye.', example: 'observe break, zone' },
  read: { says: 'Finds out a condition from an instrument.', example: 'read glass-temperature' },
  accept: {
    says: 'The readings with which the work goes on; it stands behind its `read`.',
    example: 'read glass-temperature accept 5 °C to 35 °C or else stop "Too cold."',
  },
  check: {
    says: 'What has to be seen before going on.',
    example: 'check "No leg shines" or else stop "Refer the glass."',
  },
  caution: {
    says: 'Announces a hazard, or warns in words of your own; as a signal word, of minor injury.',
    example: 'caution uv',
  },
  note: { says: 'Why, or how best; it changes nothing.', example: 'note "Cold resin is slow."' },
  photo: { says: 'Asks for a picture.', example: 'photo "the break, square on"' },
  meanwhile: {
    says: 'Steps that are done during the hold.',
    example: 'meanwhile { step "Flex the legs" { takes 10 s } }',
  },
  waive: {
    says: 'Takes the risk that a rule warns of on purpose, with the reason on record.',
    example: 'waive inside-look-before-cure because "The glass is out of the frame."',
  },

  // Tests
  is: { says: 'Holds where the condition or state has one of the values.', example: 'break is star, combination' },
  not: { says: 'Holds where what follows does not.', example: 'break is not bullseye' },
  and: {
    says: 'Holds where both sides do; beside `or` it needs brackets.',
    example: 'break is star and glass-temperature below 10 °C',
  },
  or: {
    says: 'Holds where one side does; beside `and` it needs brackets.',
    example: 'break is star or zone is driver-view',
  },
  always: { says: 'Holds in every situation.', example: 'when always { … }' },
  below: {
    says: 'Holds under the value; the value itself does not belong to it.',
    example: 'glass-temperature below 10 °C',
  },
  above: {
    says: 'Holds over the value; the value itself does not belong to it.',
    example: 'glass-temperature above 35 °C',
  },
  at: {
    says: 'Begins `at most` and `at least`, and names the point at which a value on a datasheet holds.',
    example: 'leg-length at most 25 mm',
  },
  most: { says: 'With `at`: the value, or less.', example: 'leg-length at most 25 mm' },
  least: { says: 'With `at`: the value, or more.', example: 'edge-distance at least 100 mm' },
  from: { says: 'Begins a span; both ends belong to it.', example: 'glass-temperature from 5 °C to 35 °C' },
  to: { says: 'Stands between the least and the most of a span.', example: 'hold 15 s to 30 s' },
  of: { says: 'Says what something belongs to.', example: 'rule slow-hold { hold of press-resin at least 1 min }' },

  // Examples
  example: {
    says: 'Begins an example of a procedure: a situation, and what is to come of it.',
    example: 'example "Cold star" of stone-chip { suppose break is star; uses thin }',
  },
  suppose: { says: 'What the example takes for granted about the job.', example: 'suppose break is star' },
  uses: { says: 'The example takes this thing in hand.', example: 'uses thin' },
  has: { says: 'The example comes to this step.', example: 'has step long-press' },
  lacks: { says: 'The example does not come to this step.', example: 'lacks step first-press' },
  lasts: { says: 'The time of the example, from the least to the most.', example: 'lasts 9 min to 16 min' },
  stops: { says: 'The example ends in a stop.', example: 'stops "Refer the glass for replacement."' },

  // Variations
  variation: {
    says: 'Begins a variation: a procedure that changes another one without copying it.',
    example: 'variation harbour of stone-chip { … }',
  },
  instead: { says: 'Names what is replaced.', example: 'use resin harbour-thin instead of thin' },
  in: { says: 'Changes clauses of a step.', example: 'in step long-draw { hold 2 min to 3 min }' },
  omit: { says: 'Leaves out a step.', example: 'omit step first-draw because "Our injector draws in one go."' },
};

/** What a word of the language is for; nothing for any other word. */
export function wordHelp(word: string): WordHelp | undefined {
  return Object.hasOwn(words, word) ? words[word] : undefined;
}
