/** A table of numbers to be worked through row by row. */

export interface Table {
  /** Names of the columns, as an expression names them. */
  readonly columns: readonly string[];
  /** Numbers as they are written in the notation, a row as long as there are columns. */
  readonly rows: readonly (readonly string[])[];
}
