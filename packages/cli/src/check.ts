// What checking takes, behind one door: it is opened only by those who check, so that the rest starts fast.
export { checkSheets } from '@quarrel/checks';
export { reportJson } from './report/json.js';
export { reportOf, surroundingsOf } from './report/report.js';
export { usedWithErrors } from './report/used.js';
export { reportText } from './report/whole.js';
export { readAlone, readGathered } from './sheets/read.js';
