/** The command line. */
package lanemend.cli;
