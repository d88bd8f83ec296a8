/**
 * The web desk: the job's pages and the JSON they are made of, for browsers on this computer.
 *
 * <p>{@link lanemend.web.desk.Desk} starts it. Each area of the job is an {@link
 * lanemend.web.desk.Area} with its routes under {@code /api}; its description lies beside the pages
 * in {@code openapi/} and a test holds the two together. Pages are HTML, CSS and ES modules under
 * {@code src/main/resources/lanemend/desk}, served as they are.
 */
package lanemend.web.desk;
