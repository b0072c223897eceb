/** A script whose bench records are read by the tests. */
export const SCRIPT = `machine lever-6
  setting 6
  counter 4
  result 10
  bell
sequence nines on lever-6
  clear all
  set 1
  turn
  clear result
  turn back
  expect overdraw bell result 9999999999 as nines
  turn
  expect overflow bell result 0 as noughts
`;
