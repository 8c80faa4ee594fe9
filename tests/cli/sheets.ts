/** Small sheets that the tests share. */

/** Cured although only stars were filled: one error, for exactly the other break types. */
export const curedUnfilled = `observation break: bullseye, star, combination
state cavity: empty, filled, cured
act press { makes cavity filled }
act cure {
  needs cavity is filled as cure-after-fill because "Curing locks in whatever air is left." source "common practice"
  makes cavity cured
}

procedure chip "Stone chip" {
  step look "Name the break" { observe break; takes 10 s }
  when break is star {
    step fill "Press resin in" { do press; hold 1 min }
  }
  step lamp "Cure under the lamp" { do cure; hold 60 s to 90 s }
}
`;

/** Nothing is wrong with it. */
export const clean = `observation break: bullseye, star
reading glass-temperature: 0 °C to 40 °C

procedure short "A short job" {
  covers { glass-temperature from 5 °C to 35 °C }
  step look "Name the break" { observe break; takes 10 s }
  step read "Read the glass temperature" {
    read glass-temperature
    takes 10 s
  }
  when break is star {
    step legs "Press lightly round the legs" { takes 20 s }
  }
}
`;

/** One warning and nothing else: a waiver of what does not happen. */
export const warned = `procedure idle "Idle" {
  waive gap-in-choice because "There is none."
  step rest "Rest" { takes 10 s }
}
`;
