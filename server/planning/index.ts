/** Planning, for the other rooms. */
export * from './order.js';
export { plan } from './plan.js';
