package lanemend.network;

/**
 * Something the import had to decide, mend or leave out, for the user to judge.
 *
 * @param routeId the route it concerns, or empty
 * @param origin where the line or post stands in its file, or empty
 * @param text one plain sentence
 */
public record AssemblyNote(String routeId, String origin, String text) {}
