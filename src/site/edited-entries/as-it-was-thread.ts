// Runs in a worker thread: looks whether a site is as it was.
import { answering } from '../../answering.js';
import { lookInThread } from './as-it-was-asked.js';

answering({ look: lookInThread });
