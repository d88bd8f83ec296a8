package lanemend.network;

/**
 * Travel between places, {@code [from][to]}: minutes of the fastest way at legal speed and the
 * kilometres of that way. Infinity where there is no way. Callers apply what makes trucks slower.
 */
public record HaulMatrix(double[][] minutes, double[][] km) {}
