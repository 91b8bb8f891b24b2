/** How grave a finding is: an error stops publication, a warning should be looked at, a note may be. */
export type Severity = 'error' | 'warning' | 'note';
