/** Commands that the server carries out, and those that it asks the editor's extension for. */

/** Chooses the case whose readings are shown: the document's address, the sequence, the number of the case. */
export const CHOOSE_CASE = 'cranknote.server.chooseCase';
