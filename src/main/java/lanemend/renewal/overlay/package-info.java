/**
 * What an overlay would be and whether it pays. Thickness by the AASHTO 1993 flexible equation and
 * the structural number left in the road; costs of patching on against overlaying in each year.
 * Every result is for review by a licensed engineer.
 */
package lanemend.renewal.overlay;
