package lanemend.store;

/**
 * One setting of the agency, kept as the text its owner writes and reads.
 *
 * @param json JSON text; the store does not look inside
 */
public record Setting(String key, String json) {}
