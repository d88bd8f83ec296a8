/** The county as one moment of the store has it, set up for the faces: commands and screens. */
package lanemend.county;
