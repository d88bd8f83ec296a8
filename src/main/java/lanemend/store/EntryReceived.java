package lanemend.store;

/**
 * What became of an entry that arrived.
 *
 * @param entryId the sender's own id of it
 * @param digest of what was sent
 * @param becameTable for instance {@code defect}
 * @param becameKey the row's own key, for instance the defect's id
 */
public record EntryReceived(String entryId, String digest, String becameTable, String becameKey) {}
