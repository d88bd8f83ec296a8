/**
 * Repairs and years of age by cell: a tenth of a mile of one lane. Age runs from the last surfacing
 * and starts anew at each resurfacing; only the years the repair records cover count.
 */
package lanemend.renewal.exposure;
