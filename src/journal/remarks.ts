// The remarks' own room; what the journal still words itself goes through here.
export { remark, severityOf, type Place, type Remark, type Severity } from '../remarks/remark.js';
