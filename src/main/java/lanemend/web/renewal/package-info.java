/**
 * Renewal on paper: for each flagged section the evidence an engineer judges, and a list of all.
 */
package lanemend.web.renewal;
