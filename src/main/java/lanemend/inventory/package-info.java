/**
 * What is known of the roads: defects, a patrol's other findings, past patches and road attributes,
 * each a linear-referenced event on a route.
 */
package lanemend.inventory;
