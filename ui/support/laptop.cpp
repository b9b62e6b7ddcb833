#include "ui/support/laptop.h"

#include "base/text/text.h"

namespace gk::ui {

base::Path recentBook(const base::Path& folder) {
  const auto kept = base::readFile(folder / "recent");
  if (!kept) return {};
  const base::Path book(std::string(base::trim(*kept)));
  std::error_code trouble;
  return std::filesystem::exists(book, trouble) ? book : base::Path();
}

base::Result<base::Done> rememberBook(const base::Path& folder, const base::Path& book) {
  if (const auto made = base::makeFolder(folder); !made) return made.error();
  std::error_code trouble;
  const auto whole = std::filesystem::absolute(book, trouble);
  return base::replaceFile(folder / "recent", (trouble ? book : whole).string() + "\n");
}

} // namespace gk::ui
