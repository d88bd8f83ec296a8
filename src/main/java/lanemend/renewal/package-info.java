/**
 * Where repeat patching means an overlay. From patch history to sections an engineer can put a name
 * under: {@link lanemend.renewal.exposure} counts repairs against years of age, {@link
 * lanemend.renewal.repairs} fits and forecasts them, {@link lanemend.renewal.sections} finds where
 * they gather, {@link lanemend.renewal.overlay} designs and costs the overlay, {@link
 * lanemend.renewal.program} fits overlays to yearly budgets, and {@link lanemend.renewal.hindcast}
 * shows how well all that would have foretold years already past.
 */
package lanemend.renewal;
