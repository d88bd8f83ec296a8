package lanemend.store;

import java.time.Instant;

/**
 * One line of the change log: a row that came, changed or went.
 *
 * @param edit groups the rows of one write; 0 when another program wrote
 * @param who as given to {@link Store#write}, or {@code another program}
 * @param row the row's feature id
 * @param key the row's own key, for instance a defect's id
 * @param action {@code insert}, {@code update} or {@code delete}
 * @param before the whole row as a JSON object, geometry as hexadecimal {@code geom}; null at an
 *     insert
 * @param after the row as a JSON object without its geometry, which stands in the row itself or in
 *     the next change's {@code before}; null at a delete
 */
public record LoggedChange(
    long edit,
    Instant at,
    String who,
    String why,
    String table,
    long row,
    String key,
    String action,
    String before,
    String after) {}
