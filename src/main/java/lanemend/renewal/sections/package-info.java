/**
 * Where repairs gather and where a project would start and end. Clusters by Kulldorff's scan along
 * each route with false discoveries held down; sections by the cumulative difference approach and
 * by optimal partition, side by side, for an engineer to choose from.
 */
package lanemend.renewal.sections;
