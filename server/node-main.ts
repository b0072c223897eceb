/** What VS Code starts as a process of its own. */
import { serve } from './node.js';

/** Put in when the program is bundled. */
declare const CRANKNOTE_VERSION: string;

serve(CRANKNOTE_VERSION);
