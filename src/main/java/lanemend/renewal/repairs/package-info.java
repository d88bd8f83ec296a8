/**
 * How often cells need repair and what it takes. Repairs follow a power law in the age of the
 * surface; cells of one family share it, and each has its own multiplier (frailty) with a gamma
 * spread, so that a short history is drawn towards its family. Fitted by maximum likelihood with
 * standard errors; forecast as negative binomial counts, tonnes and cost.
 */
package lanemend.renewal.repairs;
