// Loaded before a command: from here on, what follows from the tables alone is read where it was prepared.
import { readPreparedFile } from './prepared-files.js';
import { takePreparedFrom } from './prepared.js';

takePreparedFrom(readPreparedFile);
