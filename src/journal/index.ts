// The public face of the journal room: reading a journal's folder into checked, typed entries, places, remarks.
export type { Entry, Journal, Page, Shelf } from './entry.js';
export type {
  ColourReading,
  DescribedReagent,
  Heating,
  JournalSettings,
  Matter,
  Pigment,
  Role,
  Sample,
  Sds,
  ShelfReagent,
  Status,
  Use,
} from './schema.js';
export { roles, statuses } from './schema.js';
export { remark, severityOf, type Place, type Remark, type Severity } from '../remarks/remark.js';
export { isDraft, statusReason } from './entry.js';
export { hasErrors, readJournal, type ReadOptions, type Reading, type Remembered } from './read.js';
export { readPage, readSettings, readShelf } from './yaml-file.js';
export { readEntry, type EntryReading } from './entry-file.js';
export { placeOf, placeInBody, placeInFile, remarksOn, type Path } from './place.js';
export { printRemarks, remarksAsJson, type RemarkJson } from '../remarks/print.js';
export {
  extendRegister,
  isGathered,
  sortedAddresses,
  readRegister,
  registerFile,
  registerRemarks,
  registerText,
} from './register.js';
export { bodyLinks, type BodyLink } from './links.js';
export { isPublishedFile } from './folder.js';
