#include "exchange/setup/setup_document.h"

#include "base/text/text.h"
#include "exchange/setup/json_fields.h"

#include <limits>
#include <map>

// The limits are those of the logbook's own tables (schema/current.sql).
namespace gk::exchange {

using base::Date;
using base::Error;
using base::ErrorCode;
using base::Result;
using Kind = JsonNode::Kind;

namespace {

/// Stands where a date is not said; nothing is made of it, since a new thing must say its dates.
const Date noDate = Date::fromDays(std::chrono::sys_days{std::chrono::year{2000} / 1 / 1});

template <class T>
T blank() {
  return T{};
}
template <>
roster::Term blank() {
  return {{}, noDate, noDate, {}};
}
template <>
roster::ProgramYear blank() {
  return {{}, roster::YearKind::school, noDate, noDate};
}
template <>
kit::Lot blank() {
  return {.kind = {},
          .material = {},
          .lot = {},
          .expiry = noDate,
          .contains = {},
          .quarantineReason = {}};
}
template <>
roster::PlannedDay blank() {
  return {.term = roster::TermId(base::Uuid{}),
          .school = roster::SchoolId(base::Uuid{}),
          .date = noDate};
}

void fields(JsonFields& in, roster::Program& program) {
  in.text("name", program.name);
  in.text("county", program.county);
  in.text("phone", program.phone);
  in.word("notation", program.notation);
  in.word("supervision", program.supervision);
  in.text("authorizing_dentist", program.authorizingDentist);
  in.date("agreement_until", program.agreementUntil);
  in.whole("authorization_days", program.authorizationDays, 1, 1100);
  in.text("privacy_footing", program.privacyFooting);
  in.whole("suppress_below", program.suppressBelow, 5, 100);
  in.word("by_school", program.bySchool);
  in.whole("benchmark_consented_percent", program.benchmarks.consented, 1, 100);
  in.whole("benchmark_screened_percent", program.benchmarks.screened, 1, 100);
  in.whole("benchmark_sealed_percent", program.benchmarks.sealed, 1, 100);
  in.whole("benchmark_retained_percent", program.benchmarks.retained, 1, 100);
  in.whole("varnish_interval_days", program.varnishIntervalDays, 0, 730);
  in.flag("primary_teeth_offered", program.primaryTeethOffered);
  in.seconds("etch_seconds", program.times.etch, 1, 300);
  in.seconds("etch_again_contaminated_seconds", program.times.etchAgainWet, 1, 300);
  in.seconds("etch_again_adding_seconds", program.times.etchAgainAdding, 1, 300);
  in.seconds("rinse_seconds", program.times.rinse, 1, 300);
}

void fields(JsonFields& in, roster::School& school) {
  in.text("code", school.code);
  in.text("name", school.name);
  in.at("enrollment", Kind::list);
  in.at("meal_eligibility", Kind::list);
  in.need({"code"});
}

void fields(JsonFields& in, roster::Term& term) {
  in.text("name", term.name);
  in.date("start", term.start);
  in.date("end", term.end);
  in.dates("holidays", term.holidays);
  in.need({"name"});
}

void fields(JsonFields& in, roster::ProgramYear& year) {
  in.text("name", year.name);
  in.word("kind", year.kind, " year");
  in.date("start", year.start);
  in.date("end", year.end);
  in.need({"name"});
}

void fields(JsonFields& in, roster::Member& member) {
  in.text("initials", member.initials);
  in.text("name", member.name);
  const auto before = member.role;
  in.word("role", member.role);
  // A new role brings its usual tasks, as at the desk, unless they are said too.
  if (in.says("role") && member.role != before) member.may = roster::usualTasks(member.role);
  in.text("license", member.license);
  in.date("license_until", member.licenseUntil);
  in.words("may", member.may);
  in.need({"initials"});
}

void fields(JsonFields& in, kit::Lot& lot) {
  in.text("material", lot.material);
  in.text("lot", lot.lot);
  in.word("kind", lot.kind);
  in.expiry("expiry", lot.expiry);
  in.seconds("manufacturer_seconds", lot.makersTime, 0, 600);
  in.words("contains", lot.contains);
  in.need({"material", "lot"});
}

void fields(JsonFields& in, kit::Light& light) {
  in.text("tag", light.tag);
  in.word("type", light.type);
  in.whole("manufacturer_minimum", light.makersLeast.value, 0, 5000);
  in.whole("baseline", light.baseline.value, 0, 5000);
  in.text("meter", light.meter);
  in.flag("baseline_with_sleeve", light.baselineWithSleeve);
  in.flag("in_service", light.inService);
  in.at("cure_times", Kind::list);
  in.need({"tag"});
}

void fields(JsonFields& in, roster::PlannedDay& day) {
  in.date("date", day.date);
  in.whole("team", day.team, 1, roster::mostPlannedTeams);
  in.whole("chairs", day.chairs, 1, roster::mostPlannedChairs);
  in.text("people", day.people);
  in.text("note", day.note);
  in.flag("canceled", day.canceled);
  // These two are of the plan around it (SetupPlan).
  std::string school;
  in.text("school", school);
  in.at("confirmed", Kind::boolean);
  in.need({"school", "date"});
}

/// Renamed things say what they were called before.
template <class T>
constexpr bool hasFormerName =
    !std::is_same_v<T, roster::Program> && !std::is_same_v<T, roster::PlannedDay>;

using Tree = std::shared_ptr<const JsonNode>;

template <class T>
Result<SetupThing<T>> thing(const Tree& tree, const JsonNode& node, const std::string& at) {
  SetupThing<T> made{at, blank<T>()};
  JsonFields in(node, at);
  fields(in, made.value);
  made.says = in.said();
  if constexpr (hasFormerName<T>) in.text("formerly", made.formerly);
  if constexpr (std::is_same_v<T, roster::Member>)
    if (!in.says("may")) made.value.may = roster::usualTasks(made.value.role);
  if (const auto read = in.end(); !read) return read.error();
  // The tree is kept whole, since the node is a part of it.
  made.into = [tree, place = &node, at](T& value, std::string_view only) {
    JsonFields again(*place, at, only);
    fields(again, value);
  };
  return made;
}

/// Each of a list, with its place; the first trouble ends it.
template <class Each>
Result<base::Done> eachOf(const JsonNode* list, const std::string& at, Each each) {
  if (!list) return base::Done{};
  for (std::size_t i = 0; i < list->items.size(); ++i)
    if (Result<base::Done> done = each(list->items[i], pathOf(at, i)); !done) return done;
  return base::Done{};
}

const JsonNode* memberOf(const JsonNode& node, std::string_view name) {
  for (const auto& [known, value] : node.members)
    if (known == name) return &value;
  return nullptr;
}

/// Refuses a second entry of one thing, wherever the first is.
class Once {
 public:
  Result<base::Done> take(const std::string& key, const std::string& at, const JsonNode& node,
                          const char* what) {
    const auto [first, isNew] = places_.emplace(key, at);
    if (isNew) return base::Done{};
    return jsonError(ErrorCode::documentMalformed, at, node,
                     std::string("this ") + what + " is at " + first->second + " already");
  }

 private:
  std::map<std::string, std::string> places_;
};

/// Between the parts of a key; in no text that is kept.
constexpr const char* between = "\x1F";

class SetupReading {
 public:
  explicit SetupReading(Tree tree) : tree_(std::move(tree)) {}

  Result<SetupDocument> read() {
    JsonFields in(*tree_, {});
    in.need({"format", "version"});
    std::string format;
    int version = 0;
    in.text("format", format);
    in.whole("version", version, 1, std::numeric_limits<int>::max());
    if (in.says("version") && version > 1)
      in.refuse(ErrorCode::documentMalformed, "version", *tree_,
                "this program reads version 1; open this document with a newer one");
    if (in.says("format") && format != "groovekeeper-setup")
      in.refuse(ErrorCode::documentMalformed, "format", *tree_,
                "\"groovekeeper-setup\" belongs there");
    in.text("reason", made_.reason);
    const auto* program = in.at("program", Kind::object);
    std::map<std::string_view, const JsonNode*> lists;
    for (const auto* name :
         {"schools", "terms", "years", "team", "materials", "lights", "planned_days", "rosters"})
      lists[name] = in.at(name, Kind::list);
    if (const auto known = in.end(); !known) return known.error();
    if (program) {
      auto said = thing<roster::Program>(tree_, *program, "/program");
      if (!said) return said.error();
      made_.program = std::move(*said);
    }
    for (const auto& done :
         {things(lists["schools"], "/schools", made_.schools, "school",
                 [](const roster::School&school) { return school.code; }),
          things(lists["terms"], "/terms", made_.terms, "term",
                 [](const roster::Term&term) { return term.name; }),
          things(lists["years"], "/years", made_.years, "year",
                 [](const roster::ProgramYear&year) { return year.name; }),
          things(lists["team"], "/team", made_.team, "member",
                 [](const roster::Member&member) { return member.initials; }),
          things(lists["materials"], "/materials", made_.lots, "lot",
                 [](const kit::Lot&lot) { return lot.material + between + lot.lot; }),
          things(lists["lights"], "/lights", made_.lights, "light",
                 [](const kit::Light&light) { return light.tag; }),
          eachOf(lists["schools"], "/schools",
                 [this](const auto&node, const auto&at) { return schoolLists(node, at); }),
          eachOf(lists["lights"], "/lights",
                 [this](const auto&node, const auto&at) { return cureTimes(node, at); }),
          eachOf(lists["planned_days"], "/planned_days",
                 [this](const auto&node, const auto&at) { return plan(node, at); }),
          eachOf(lists["rosters"], "/rosters",
                 [this](const auto&node, const auto&at) { return roster(node, at); })})
      if (!done) return done.error();
    return std::move(made_);
  }

 private:
  template <class T, class Key>
  Result<base::Done> things(const JsonNode* list, const std::string& at,
                            std::vector<SetupThing<T>>& into, const char* what, Key key) {
    Once once;
    return eachOf(list, at, [&](const JsonNode& node, const std::string& place) {
      auto said = thing<T>(tree_, node, place);
      if (!said) return Result<base::Done>(said.error());
      auto single = once.take(key(said->value), place, node, what);
      into.push_back(std::move(*said));
      return single;
    });
  }

  Result<base::Done> schoolLists(const JsonNode& node, const std::string& at) {
    std::string code;
    if (node.kind == Kind::object) JsonFields(node, at, "code").text("code", code);
    auto counted =
        eachOf(memberOf(node, "enrollment"), pathOf(at, "enrollment"),
               [&](const auto& one, const auto& place) { return grades(code, one, place); });
    if (!counted) return counted;
    return eachOf(memberOf(node, "meal_eligibility"), pathOf(at, "meal_eligibility"),
                  [&](const JsonNode& one, const std::string& place) {
                    SetupEligibility said{.at = place, .school = code, .term = {}, .source = {}};
                    JsonFields in(one, place);
                    in.text("term", said.term);
                    in.whole("percent", said.percent, 0, 100);
                    in.text("source", said.source);
                    in.need({"term", "percent", "source"});
                    if (auto read = in.end(); !read) return read;
                    const auto key = code + between + said.term;
                    made_.eligibility.push_back(std::move(said));
                    return eligibilities_.take(key, place, one, "share");
                  });
  }

  Result<base::Done> grades(const std::string& code, const JsonNode& node, const std::string& at) {
    JsonFields in(node, at);
    std::string term;
    in.text("term", term);
    const auto* counts = in.at("grades", Kind::object);
    in.need({"term", "grades"});
    if (auto read = in.end(); !read) return read;
    const auto place = pathOf(at, "grades");
    JsonFields each(*counts, place);
    static const std::vector<std::string> all{"K", "1", "2", "3",  "4",  "5", "6",
                                              "7", "8", "9", "10", "11", "12"};
    for (const auto& grade : all) {
      int students = 0;
      each.whole(grade, students, 0, 100'000);
      if (each.says(grade))
        made_.enrollment.push_back({pathOf(place, grade), code, term, grade, students});
    }
    if (auto read = each.end(); !read) return read;
    return counts_.take(code + between + term, at, node, "school and term");
  }

  Result<base::Done> cureTimes(const JsonNode& node, const std::string& at) {
    std::string tag;
    JsonFields(node, at, "tag").text("tag", tag);
    return eachOf(memberOf(node, "cure_times"), pathOf(at, "cure_times"),
                  [&](const JsonNode& one, const std::string& place) {
                    SetupCureTime said{.at = place, .light = tag, .material = {}};
                    JsonFields in(one, place);
                    in.text("material", said.material);
                    in.seconds("seconds", said.seconds, 1, 600);
                    in.need({"material", "seconds"});
                    if (auto read = in.end(); !read) return read;
                    const auto key = tag + between + said.material;
                    made_.cureTimes.push_back(std::move(said));
                    return times_.take(key, place, one, "light's material");
                  });
  }

  Result<base::Done> plan(const JsonNode& node, const std::string& at) {
    auto said = thing<roster::PlannedDay>(tree_, node, at);
    if (!said) return said.error();
    SetupPlan made{.day = std::move(*said), .school = {}};
    JsonFields in(node, at);
    in.text("school", made.school);
    in.flag("confirmed", made.isConfirmed);
    const auto& day = made.day.value;
    const auto key = made.school + between + day.date.iso() + between + std::to_string(day.team);
    made_.plans.push_back(std::move(made));
    return plans_.take(key, at, node, "team's day at that school");
  }

  Result<base::Done> roster(const JsonNode& node, const std::string& at) {
    SetupRoster said{.at = at, .file = {}, .school = {}, .term = {}};
    JsonFields in(node, at);
    in.text("file", said.file);
    in.text("school", said.school);
    in.text("term", said.term);
    auto order = roster::DateOrder::unsaid;
    in.word("dates", order);
    if (in.says("dates")) said.dates = order;
    auto early = roster::EarlyGrades::hold;
    in.word("before_kindergarten", early);
    if (in.says("before_kindergarten")) said.early = early;
    in.flag("accept_good", said.acceptGood);
    in.flag("ages_confirmed", said.agesConfirmed);
    in.flag("others_confirmed", said.othersConfirmed);
    in.need({"file", "school", "term"});
    if (auto read = in.end(); !read) return read;
    const auto key = said.file + between + said.school + between + said.term;
    made_.rosters.push_back(std::move(said));
    return rosters_.take(key, at, node, "list");
  }

  Tree tree_;
  SetupDocument made_{};
  Once counts_{};
  Once eligibilities_{};
  Once times_{};
  Once plans_{};
  Once rosters_{};
};

} // namespace

Result<SetupDocument> readSetup(std::string_view json) {
  auto tree = readJson(json);
  if (!tree) return tree.error();
  return SetupReading(std::make_shared<const JsonNode>(std::move(*tree))).read();
}

} // namespace gk::exchange
