/**
 * How well the method would have foretold years already past: fitted without the last years, held
 * against what was repaired in them and against simple ways of foretelling.
 */
package lanemend.renewal.hindcast;
