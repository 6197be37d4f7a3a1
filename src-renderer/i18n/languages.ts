/** The languages and their texts. English is the reference that the others are checked against. */
import enBench from './en/bench.json' with { type: 'json' };
import enCommon from './en/common.json' with { type: 'json' };
import enContent from './en/content.json' with { type: 'json' };
import enEyes from './en/eyes.json' with { type: 'json' };
import enHands from './en/hands.json' with { type: 'json' };
import enLecture from './en/lecture.json' with { type: 'json' };
import enLogbook from './en/logbook.json' with { type: 'json' };
import enNumbers from './en/numbers.json' with { type: 'json' };
import enTrial from './en/trial.json' with { type: 'json' };
import esBench from './es/bench.json' with { type: 'json' };
import esCommon from './es/common.json' with { type: 'json' };
import esContent from './es/content.json' with { type: 'json' };
import esEyes from './es/eyes.json' with { type: 'json' };
import esHands from './es/hands.json' with { type: 'json' };
import esLecture from './es/lecture.json' with { type: 'json' };
import esLogbook from './es/logbook.json' with { type: 'json' };
import esNumbers from './es/numbers.json' with { type: 'json' };
import esTrial from './es/trial.json' with { type: 'json' };
import hiBench from './hi/bench.json' with { type: 'json' };
import hiCommon from './hi/common.json' with { type: 'json' };
import hiContent from './hi/content.json' with { type: 'json' };
import hiEyes from './hi/eyes.json' with { type: 'json' };
import hiHands from './hi/hands.json' with { type: 'json' };
import hiLecture from './hi/lecture.json' with { type: 'json' };
import hiLogbook from './hi/logbook.json' with { type: 'json' };
import hiNumbers from './hi/numbers.json' with { type: 'json' };
import hiTrial from './hi/trial.json' with { type: 'json' };

const en = {
  bench: enBench,
  common: enCommon,
  content: enContent,
  eyes: enEyes,
  hands: enHands,
  lecture: enLecture,
  logbook: enLogbook,
  numbers: enNumbers,
  trial: enTrial,
};

export type Messages = typeof en;

export const MESSAGES = {
  en,
  es: {
    bench: esBench,
    common: esCommon,
    content: esContent,
    eyes: esEyes,
    hands: esHands,
    lecture: esLecture,
    logbook: esLogbook,
    numbers: esNumbers,
    trial: esTrial,
  },
  hi: {
    bench: hiBench,
    common: hiCommon,
    content: hiContent,
    eyes: hiEyes,
    hands: hiHands,
    lecture: hiLecture,
    logbook: hiLogbook,
    numbers: hiNumbers,
    trial: hiTrial,
  },
};
