// The public face of the journal room: reading a journal's folder into checked, typed entries, places, remarks.
export type { Entry, Journal, Page, Shelf } from './entry.js';
export type {
  ColourReading, DescribedReagent, Heating, JournalSettings, Matter, Pigment, Role, Sample, Sds, ShelfReagent, Status, Use,
} from './schema.js';
export { roles, statuses } from './schema.js';
export { remark, severityOf, type Finding, type Place, type Remark, type Severity } from './remarks.js';
export { readJournal, type ReadOptions, type Reading } from './read.js';
export { readEntry, type EntryReading } from './entry-file.js';
export { placeOf, placeInBody, placeInFile, type Path } from './place.js';
export { printRemarks, remarksAsJson, type RemarkJson } from './print.js';
export { extendRegister, registerRemarks, registerText } from './register.js';
export { bodyLinks, type BodyLink } from './links.js';
