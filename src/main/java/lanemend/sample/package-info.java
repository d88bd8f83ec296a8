/** An invented county, made from a seed, to try everything on. None of it is a real place. */
package lanemend.sample;
