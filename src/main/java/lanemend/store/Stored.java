package lanemend.store;

/**
 * A record as it was read, with what an update needs to be sure nobody else changed it since.
 *
 * @param row the row's feature id in its table
 * @param version counts from 1 and grows with every change, by whatever program
 */
public record Stored<T>(long row, long version, T value) {}
