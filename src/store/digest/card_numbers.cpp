#include "store/digest/card_numbers.h"

#include "base/text/text.h"
#include "store/sqlite/statement.h"

namespace gk::store {

std::string numberOnCard(Connection& book, const std::string& from, std::int64_t child) {
  auto row = book.prepare("SELECT c.number FROM " + from + "entry AS e CROSS JOIN " + from +
                          "child AS c ON c.entry = e.id WHERE e.id = ?1 OR e.subject = ?1 ORDER BY "
                          "e.id DESC");
  row.bind(1, child);
  return row.step() ? row.column<std::string>(0) : std::string();
}

std::string studentsNumbered(const std::vector<std::string>& numbers) {
  constexpr std::size_t most = 12;
  auto shown = numbers;
  if (shown.size() > most) shown.resize(most);
  std::string text = shown.size() == 1 ? "student " : "students ";
  text += base::join(shown, ", ");
  const auto more = numbers.size() - shown.size();
  return more == 0 ? text : text + " and " + std::to_string(more) + " more";
}

} // namespace gk::store
