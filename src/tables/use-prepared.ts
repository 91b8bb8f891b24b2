// Loaded before a command: from here on, what follows from the tables alone is read where it was prepared.
import { preparedText } from './prepared-files.js';
import { takePreparedFrom } from './prepared.js';

takePreparedFrom(preparedText);
