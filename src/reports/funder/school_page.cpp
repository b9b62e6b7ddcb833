#include "reports/funder/front_parts.h"
#include "reports/funder/funder_figures.h"
#include "reports/funder/funder_report.h"
#include "reports/print/cells.h"

#include <algorithm>

namespace gk::reports {

namespace {

using Part = ShownFigures::Part;

bool isCount(const Cell& cell) {
  return cell.as<Count>() != nullptr;
}

void addRow(Table& table, const std::string& figure, const Cell& number, const Cell& of = "",
            const Cell& percents = "") {
  if (number.as<Missing>() && percents.isEmpty()) return;
  table.rows.push_back({figure, number, of, percents});
}

/// What the school's own row of the published tables shows.
Table figuresOfSchool(const ShownFigures& shown) {
  Table table{"Key figures", {texts("Figure"), counts("Number"), counts("Of"), shares("Percent")}};
  const auto at = [&](Part part, const char* key) { return shown.at(part, key); };
  const auto enrolled = at(Part::participation, "enrolled");
  const auto consented = at(Part::participation, "consented");
  const auto screened = at(Part::participation, "screened");
  addRow(table, "Forms back, of enrolled", at(Part::participation, "forms_back"), enrolled);
  addRow(table, "Consented, of enrolled", consented, enrolled,
         at(Part::participation, "consented_share"));
  addRow(table, "Screened, of consented", screened, consented,
         at(Part::participation, "screened_share"));
  if (!at(Part::findings, "untreated").as<Missing>()) {
    const auto [name, of] = shown.untreatedOf();
    addRow(table, name, at(Part::findings, "untreated"), of, at(Part::findings, "untreated_share"));
    addRow(table, "Early dental care needed", at(Part::findings, "early"), screened);
    addRow(table, "Urgent dental care needed", at(Part::findings, "urgent"), screened,
           at(Part::findings, "urgent_share"));
  }
  addRow(table, "Needing sealants, of screened", at(Part::services, "needing"), screened,
         at(Part::services, "needing_share"));
  const auto& services = shown.table(Part::services);
  const std::string sealed(sealedOfNeeding(services));
  addRow(table,
         wereAllScreened(services) ? "Sealed, of those needing"
                                   : "Screened students sealed, of those needing",
         at(Part::services, sealed.c_str()), at(Part::services, "needing"),
         at(Part::services, "sealed_share"));
  addRow(table, "Teeth sealed", at(Part::services, "teeth"));
  const std::string varnish(varnishOfScreened(services));
  addRow(table,
         varnish == "varnish" ? "Fluoride varnish, of screened"
                              : "Fluoride varnish for screened students, of screened",
         at(Part::services, varnish.c_str()), screened);
  addRow(table, "Sealants fully retained after a year, of assessed", at(Part::retention, "whole"),
         at(Part::retention, "assessable"), at(Part::retention, "whole_share"));
  return table;
}

void addSentences(Front& front, const ShownFigures& shown) {
  const auto screened = shown.at(Part::participation, "screened");
  const auto sealed = shown.at(Part::services, "sealed");
  const auto teeth = shown.at(Part::services, "teeth");
  if (isCount(screened) && isCount(sealed) && isCount(teeth))
    front.sentences.push_back("We screened " + toRead(screened) + " of your students and sealed " +
                              countedShown(teeth, "tooth", "teeth") + " for " +
                              (wereAllScreened(shown.table(Part::services))
                                   ? toRead(sealed) + " of them."
                                   : countedShown(sealed, "student", "students") + "."));
  else
    front.sentences.emplace_back("Below is what we did at your school; to protect students, some "
                                 "numbers are not shown.");
  const auto consented = shown.at(Part::participation, "consented");
  const auto enrolled = shown.at(Part::participation, "enrolled");
  if (isCount(consented) && isCount(enrolled))
    front.sentences.push_back("Families of " + toRead(consented) + " of your " +
                              countedShown(enrolled, "student", "students") + " gave consent.");
  const auto kept = shown.at(Part::retention, "whole_share");
  if (const auto* share = kept.as<Share>())
    front.sentences.push_back("Of the sealants placed at your school a year ago and assessed on "
                              "these dates, " +
                              base::percent(share->value, share->decimals) +
                              "% were still fully retained.");
}

Front frontOfSchool(const ShownFigures& shown, std::optional<double> benchmark) {
  Front front;
  const auto words = [](const char* what, const std::string& share) {
    return share.empty() ? std::string(what) : std::string(what) + ", " + share;
  };
  front.figures = {
      {shown.at(Part::participation, "consented"), "",
       words("students with consent",
             shareWords(shown.at(Part::participation, "consented_share"), "enrolled"))},
      {shown.at(Part::participation, "screened"), "",
       words("students screened",
             shareWords(shown.at(Part::participation, "screened_share"), "those with consent"))},
      {shown.at(Part::services, "sealed"), "",
       words("students sealed",
             wereAllScreened(shown.table(Part::services))
                 ? shareWords(shown.at(Part::services, "sealed_share"), "those who need it")
                 : "")},
      {shown.at(Part::services, "teeth"), "", "teeth sealed"}};
  addSentences(front, shown);
  front.pictures.push_back(stepsPicture(shown));
  if (auto kept = keptPicture(shown, benchmark)) front.pictures.push_back(*std::move(kept));
  return front;
}

std::vector<std::string> notesOf(const SuppressionRule& rule) {
  return {"Screened: a look by a licensed person at school, not a dental examination. Sealed: at "
          "least one complete sealant by this program.",
          "To protect students, counts of 1 to " + number(rule.threshold() - 1) +
              " read \"fewer than " + number(rule.threshold()) +
              "\", and numbers that would reveal one read \"suppressed\"." + openlyWords(rule)};
}

} // namespace

std::vector<Table> schoolPages(const TermTotals& totals, const Published& published,
                               const SuppressionRule& rule, const std::string& program,
                               std::optional<roster::SchoolId> wanted) {
  std::vector<Table> out;
  for (const auto& school : totals.schools) {
    if (!school.id || (wanted && *school.id != *wanted)) continue;
    const bool wasThere = school.formsBack + school.consented + school.screened + school.days > 0;
    if (!wanted && !wasThere) continue;
    const auto shown = ShownFigures::of(published, keyOf(school));
    Table table;
    if (shown) {
      table = figuresOfSchool(*shown);
      table.front = frontOfSchool(*shown, totals.targets.retained);
    } else {
      table = {"Key figures", {texts("Figure"), counts("Number")}};
      table.rows.push_back({"All figures of this school", Withheld{}});
      table.front = Front{};
      table.front->sentences = {"To protect students, the numbers of this school are shown "
                                "together with those of others. They are part of the "
                                "program's totals."};
    }
    table.title += " of " + school.school + ", " + periodWords(totals);
    table.key = "school_page";
    table.front->over = totals.term + " at your school";
    table.front->name = school.school;
    table.front->under = (program.empty() ? "" : program + " \u00b7 ") + periodWords(totals);
    table.notes = notesOf(rule);
    out.push_back(std::move(table));
  }
  if (out.empty())
    out.push_back({"Key figures",
                   {texts("Figure"), counts("Number")},
                   {},
                   {wanted ? "This school has no records in these dates."
                           : "Nothing was recorded at a school on these dates."}});
  return out;
}

} // namespace gk::reports
