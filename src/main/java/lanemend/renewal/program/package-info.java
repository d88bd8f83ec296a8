/**
 * Which sections to overlay in which year under yearly budgets, how far from the best that plan can
 * be at most, what one more unit of money would buy, and which defects then get a hold-together
 * repair only.
 */
package lanemend.renewal.program;
