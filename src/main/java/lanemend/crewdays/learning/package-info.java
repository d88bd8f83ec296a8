/**
 * What done work teaches: how minutes, mix and cost went against the plan, by crew and treatment,
 * pulled towards the agency's means as far as the records leave it open; and the season's plan held
 * against what was done.
 */
package lanemend.crewdays.learning;
