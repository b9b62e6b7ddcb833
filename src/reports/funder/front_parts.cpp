#include "reports/funder/front_parts.h"

#include "base/text/text.h"
#include "reports/funder/funder_figures.h"
#include "reports/print/cells.h"

#include <algorithm>

namespace gk::reports {

namespace {

using Part = ShownFigures::Part;

std::optional<double> countOf(const Cell& cell) {
  const auto* count = cell.as<Count>();
  return count ? std::optional(static_cast<double>(count->value)) : std::nullopt;
}

template <class E>
std::optional<std::size_t> rowOf(const std::vector<ReleasedRow<E>>& rows,
                                 const std::string& school) {
  const auto at = std::ranges::find(rows, std::vector{school}, &ReleasedRow<E>::schools);
  if (at == rows.end()) return std::nullopt;
  return static_cast<std::size_t>(at - rows.begin());
}

/// Words behind a bar whose number is not shown stand in its place.
void addRow(Plot& plot, std::string name, const Cell& count, const std::string& share,
            std::optional<double>& before, double& most) {
  const auto row = static_cast<double>(plot.y.names.size());
  plot.y.names.push_back(std::move(name));
  auto& blocks = plot.series[0];
  auto& gaps = plot.series[1];
  auto& hidden = plot.series[2];
  const auto value = countOf(count);
  const auto words = toRead(count) + (share.empty() ? "" : " \u00b7 " + share);
  if (!value) {
    hidden.points.push_back({0, row});
    hidden.said.push_back(words);
    return;
  }
  if (before && *before > *value) {
    gaps.points.push_back({*value, row});
    gaps.ends.push_back({*before, row});
  }
  blocks.points.push_back({*value, row});
  blocks.said.push_back(words);
  before = value;
  most = std::max(most, *value);
}

Plot emptyRows() {
  Plot plot{"",
            {"", 0, 1},
            {"", 0, 1},
            {{"", PlotMark::blocks, {}}, {"", PlotMark::gaps, {}}, {"", PlotMark::gaps, {}}}};
  plot.x.isDrawn = false;
  return plot;
}

} // namespace

ShownFigures ShownFigures::ofAll(const Published& published) {
  ShownFigures out(published);
  for (std::size_t i = 0; i < out.rows_.size(); ++i)
    out.rows_[i] = published.tables.at(i).rows.size() - 1;
  return out;
}

std::optional<ShownFigures> ShownFigures::of(const Published& published,
                                             const std::string& school) {
  const auto& release = published.release;
  const auto own = rowOf(release.term, school);
  if (!own) return std::nullopt;
  ShownFigures out(published);
  out.rows_[0] = own;
  out.rows_[1] = own;
  // Where findings are of all schools together, no school has them.
  if (published.tables[2].rows.size() == release.term.size()) out.rows_[2] = own;
  if (published.tables[3].rows.size() == release.checks.size())
    out.rows_[3] = rowOf(release.checks, school);
  return out;
}

Cell ShownFigures::at(Part part, std::string_view key) const {
  const auto which = static_cast<std::size_t>(part);
  const auto& row = rows_.at(which);
  if (!row) return noFigure;
  const auto& table = published_.tables.at(which);
  return table.rows.at(*row)[columnOf(table, key)];
}

std::pair<std::string, Cell> ShownFigures::untreatedOf() const {
  const auto& columns = published_.tables.at(static_cast<std::size_t>(Part::findings)).columns;
  const std::string_view recorded = "decay_recorded";
  const bool isAll = std::ranges::none_of(
      columns, [&](const Column& column) { return keyOf(column) == recorded; });
  const std::string name = "Untreated decay, of ";
  if (isAll) return {name + "screened", at(Part::participation, "screened")};
  return {name + "those recorded", at(Part::findings, recorded)};
}

std::string countedShown(const Cell& count, std::string_view one, std::string_view many) {
  const auto* whole = count.as<Count>();
  return toRead(count) + " " + std::string(whole && whole->value == 1 ? one : many);
}

std::string shareWords(const Cell& share, const std::string& of) {
  const auto* shown = share.as<Share>();
  return shown ? base::percent(shown->value, shown->decimals) + "% of " + of : std::string();
}

FrontPicture stepsPicture(const ShownFigures& shown) {
  auto plot = emptyRows();
  std::optional<double> before;
  double most = 1;
  const auto add = [&](const char* name, Part part, const char* key, const Cell& share,
                       const std::string& of) {
    addRow(plot, name, shown.at(part, key), shareWords(share, of), before, most);
  };
  const auto enrolled = shown.at(Part::participation, "enrolled");
  if (countOf(enrolled)) addRow(plot, "Enrolled", enrolled, "", before, most);
  add("Forms back", Part::participation, "forms_back", noFigure, "");
  add("Consented", Part::participation, "consented",
      shown.at(Part::participation, "consented_share"), "enrolled");
  add("Screened", Part::participation, "screened", shown.at(Part::participation, "screened_share"),
      "consented");
  add("Need sealants", Part::services, "needing", shown.at(Part::services, "needing_share"),
      "screened");
  const auto& services = shown.table(Part::services);
  const std::string inNeed(sealedOfNeeding(services));
  add(wereAllScreened(services) ? "Sealed" : "Screened, sealed", Part::services, inNeed.c_str(),
      shown.at(Part::services, "sealed_share"), "need");
  plot.x.high = most;
  auto axis = namedRows(std::move(plot.y.names));
  axis.isDrawn = false;
  plot.y = std::move(axis);
  const auto screened = shown.at(Part::participation, "screened");
  const auto sealed = shown.at(Part::services, inNeed);
  plot.says =
      countOf(screened) && countOf(sealed)
          ? countedShown(screened, "student was", "students were") + " screened and " +
                toRead(sealed) +
                (wereAllScreened(services) ? " of them sealed." : " of those in need sealed.")
          : "From the first form to the last sealant; small numbers are suppressed.";
  return {"From enrolled to sealed, students", std::move(plot)};
}

std::optional<FrontPicture> keptPicture(const ShownFigures& shown,
                                        std::optional<double> benchmark) {
  const auto assessable = countOf(shown.at(Part::retention, "assessable"));
  const auto whole = shown.at(Part::retention, "whole_share");
  const auto* share = whole.as<Share>();
  if (!assessable || *assessable <= 0 || !share) return std::nullopt;
  auto plot = emptyRows();
  std::optional<double> none;
  double most = *assessable;
  for (const auto& [name, key] :
       {std::pair("Fully retained", "whole"), std::pair("Partially retained", "part"),
        std::pair("Missing", "lost")}) {
    none.reset();
    const auto count = shown.at(Part::retention, key);
    const auto value = countOf(count);
    addRow(plot, name, count, value ? base::percent(*value / *assessable, 1) + "%" : std::string(),
           none, most);
  }
  plot.x.high = *assessable;
  auto axis = namedRows(std::move(plot.y.names));
  axis.isDrawn = false;
  plot.y = std::move(axis);
  if (benchmark)
    plot.series.push_back({"our benchmark " + base::percent(*benchmark, 0) + "%",
                           PlotMark::dashed,
                           {{*benchmark * *assessable, -0.5}, {*benchmark * *assessable, 0.5}}});
  plot.says = base::percent(share->value, share->decimals) + "% of " +
              toRead(shown.at(Part::retention, "assessable")) +
              " assessed sealants were fully retained.";
  return FrontPicture{"Sealants one year later", std::move(plot)};
}

} // namespace gk::reports
