/** Commands that the server carries out, and those that it asks the editor's extension for. */

/** Chooses the case whose readings are shown: the document's address, the sequence, the number of the case. */
export const CHOOSE_CASE = 'cranknote.server.chooseCase';

/** The extension's own, which lenses name. Its arguments are the same; it asks the server in turn. */
export const OFFER_CASE = 'cranknote.chooseCase';
/** The document's address, the sequence, the number of the case. */
export const SHOW_TRACE = 'cranknote.showTrace';
/** The document's address, the sequence, the number of the case. */
export const STEP_THROUGH = 'cranknote.stepThrough';
/** The document's address, the sequence. */
export const OPEN_SHEET = 'cranknote.openSheet';
/** The document's address, the sequence. */
export const OPEN_MACHINE = 'cranknote.openMachine';
/** The document's address, a position in it, the locations. */
export const SHOW_REFERENCES = 'cranknote.showReferences';
