package lanemend.web.desk;

import static lanemend.accounts.Role.ADMIN;
import static lanemend.accounts.Role.CREW;
import static lanemend.accounts.Role.ENGINEER;
import static lanemend.accounts.Role.PATROL;
import static lanemend.accounts.Role.PLANNER;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import lanemend.accounts.Role;

/**
 * Who may do what: one line for each route of the desk, as it is registered. What has no line is
 * refused to everybody; {@code AccessTableTest} names a route that lacks one.
 */
final class AccessTable {
  /**
   * Who may use a route.
   *
   * @param roles any of which is enough
   * @param open to those who have not signed in, too
   * @param own about one's own session: also before a password or second factor of one's own
   */
  record Rule(Set<Role> roles, boolean open, boolean own) {}

  private static final Map<String, Rule> RULES = new TreeMap<>();

  static {
    // Pages
    signedIn("get", "/");
    signedIn("get", "/map");
    signedIn("get", "/defects");
    signedIn("get", "/days");
    signedIn("get", "/sheets");
    signedIn("get", "/findings");
    signedIn("get", "/renewal");
    signedIn("get", "/season");
    roles("get", "/patrol", PATROL, PLANNER, CREW, ENGINEER);
    // The worker's text is the program's own; a browser fetches it anew without a page.
    open("get", "/patrol/worker.js");
    open("get", "/sign-in");
    own("get", "/account");
    roles("get", "/accounts", ADMIN);

    // For who keeps the desk running; both tell strangers little or nothing themselves
    open("get", "/health");
    open("get", "/metrics");

    // Signing in and one's own account
    open("get", "/api/session");
    open("post", "/api/session");
    own("delete", "/api/session");
    own("post", "/api/session/everywhere");
    own("put", "/api/session/password");
    own("post", "/api/session/second/key");
    own("put", "/api/session/second");
    own("post", "/api/session/second/off");
    own("get", "/api/sessions");
    own("post", "/api/sessions/{session}/end");
    own("post", "/api/sessions/end-others");

    // Accounts of others
    roles("get", "/api/accounts", ADMIN);
    roles("post", "/api/accounts", ADMIN);
    roles("put", "/api/accounts/{name}", ADMIN);
    roles("delete", "/api/accounts/{name}", ADMIN);
    roles("put", "/api/accounts/{name}/password", ADMIN);
    roles("post", "/api/accounts/{name}/sign-out", ADMIN);
    roles("get", "/api/audit", ADMIN);

    // The county
    signedIn("get", "/api/openapi.json");
    signedIn("get", "/api/county");
    signedIn("get", "/api/filter");
    signedIn("get", "/api/locate");
    signedIn("get", "/api/nearest");
    signedIn("get", "/api/measure");
    signedIn("get", "/api/routes/{route}");
    signedIn("get", "/api/routes/{route}/strip");
    signedIn("get", "/api/tiles/{version}/{z}/{x}/{y}");
    signedIn("get", "/api/exports/{table}/{as}");

    // Defects
    signedIn("get", "/api/defects");
    signedIn("get", "/api/defects/{id}");
    signedIn("get", "/api/defects/{id}/history");
    signedIn("get", "/api/defects/{id}/repair");
    roles("post", "/api/defects", PATROL, PLANNER, CREW, ENGINEER);
    roles("put", "/api/defects/{id}", PATROL, PLANNER);
    roles("put", "/api/defects/{id}/treatment", PLANNER, ENGINEER);
    roles("delete", "/api/defects/{id}/treatment", PLANNER, ENGINEER);
    signedIn("get", "/api/duplicates");
    roles("post", "/api/duplicates/merge", PATROL, PLANNER);
    roles("post", "/api/duplicates/apart", PATROL, PLANNER);

    // Photos, and what phones at the roadside send
    roles("post", "/api/photos", PATROL, PLANNER, CREW, ENGINEER);
    signedIn("get", "/api/photos/{hash}");
    signedIn("get", "/api/defects/{id}/photos");
    roles("post", "/api/defects/{id}/photos", PATROL, PLANNER, CREW, ENGINEER);
    roles("delete", "/api/defects/{id}/photos/{photo}", PATROL, PLANNER);
    signedIn("get", "/api/field/county");
    signedIn("get", "/api/field/entries");
    roles("put", "/api/field/entries/{id}", PATROL, PLANNER, CREW, ENGINEER);
    roles("put", "/api/field/findings/{id}", PATROL, PLANNER, CREW, ENGINEER);
    roles("post", "/api/field/entries/{id}/place", PATROL, PLANNER);
    roles("post", "/api/field/entries/{id}/withdraw", PATROL, PLANNER);
    signedIn("get", "/api/findings");

    // What was written; who is no planner takes back only what is his own
    signedIn("get", "/api/changes");
    roles("post", "/api/changes/{edit}/undo", PATROL, PLANNER, CREW, ENGINEER);

    // The plan
    signedIn("get", "/api/plan");
    signedIn("get", "/api/plan/days/{date}/{crew}");
    signedIn("get", "/api/plan/left-out");
    signedIn("get", "/api/plan/changes");
    signedIn("get", "/api/plan/run");
    roles("get", "/api/plan/places", PLANNER);
    roles("post", "/api/plan/trials", PLANNER);
    roles("post", "/api/plan/moves", PLANNER);
    roles("post", "/api/plan/rules", PLANNER);
    roles("post", "/api/plan/releases", PLANNER);
    roles("post", "/api/plan/urgent", PLANNER);
    roles("post", "/api/plan/run", PLANNER);
    roles("delete", "/api/plan/run", PLANNER);

    // Sheets
    signedIn("get", "/api/sheets");
    signedIn("get", "/api/sheets/{date}/{crew}");
    signedIn("get", "/api/sheets/{date}/{crew}/page");
    signedIn("get", "/api/sheets/{date}/{crew}/numbers");
    signedIn("get", "/api/sheets/{date}/{crew}/pdf");
    roles("post", "/api/sheets/{date}/{crew}/done", CREW, PLANNER);
    signedIn("get", "/api/records/{id}");
    roles("put", "/api/records/{id}", CREW, PLANNER);

    // The season, and what done work teaches
    signedIn("get", "/api/season");
    signedIn("get", "/api/season/csv");
    signedIn("get", "/api/season/not-done/csv");
    signedIn("get", "/api/learned");
    roles("get", "/api/learned/effect", PLANNER);
    roles("post", "/api/learned/effect", PLANNER);
    roles("post", "/api/learned/accept", PLANNER);
    roles("post", "/api/learned/release", PLANNER);

    // Renewal
    signedIn("get", "/api/renewal");
    signedIn("get", "/api/renewal/sections");
    signedIn("get", "/api/renewal/sections/export/{as}");
    signedIn("get", "/api/renewal/evidence");
    signedIn("get", "/api/renewal/evidence/page");
    signedIn("get", "/api/renewal/evidence/pdf");
    signedIn("get", "/api/renewal/run");
    roles("post", "/api/renewal/run", ENGINEER, PLANNER);
    roles("delete", "/api/renewal/run", ENGINEER, PLANNER);
    // Solves a program over budgets that were asked for; keeps nothing.
    signedIn("post", "/api/renewal/program");
    roles("put", "/api/renewal/budgets", ENGINEER);
    roles("post", "/api/renewal/decisions", ENGINEER);
    roles("post", "/api/renewal/withdrawals", ENGINEER);
  }

  private AccessTable() {}

  private static void roles(String method, String path, Role first, Role... more) {
    put(method, path, new Rule(EnumSet.of(first, more), false, false));
  }

  private static void signedIn(String method, String path) {
    put(method, path, new Rule(EnumSet.allOf(Role.class), false, false));
  }

  private static void own(String method, String path) {
    put(method, path, new Rule(EnumSet.allOf(Role.class), false, true));
  }

  private static void open(String method, String path) {
    put(method, path, new Rule(EnumSet.allOf(Role.class), true, true));
  }

  private static void put(String method, String path, Rule rule) {
    if (RULES.put(method + " " + path, rule) != null) {
      throw new IllegalStateException("two lines for " + method + " " + path);
    }
  }

  /** Every line, by {@code get /api/county}. */
  static Map<String, Rule> rules() {
    return Map.copyOf(RULES);
  }

  /** The line of a route, or null: then nobody may. */
  static Rule rule(String route) {
    return RULES.get(route);
  }

  /** Routes that somebody may not use, for pages to leave out. */
  static Set<String> notFor(Caller caller) {
    Set<String> not = new java.util.TreeSet<>();
    RULES.forEach(
        (route, rule) -> {
          boolean later = caller.heldBy().isPresent() && !rule.own();
          if (later || rule.roles().stream().noneMatch(caller::is)) {
            not.add(route);
          }
        });
    return not;
  }
}
