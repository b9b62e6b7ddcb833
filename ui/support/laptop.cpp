#include "ui/support/laptop.h"

#include "base/text.h"

namespace gk::ui {

using base::Error;
using base::ErrorCode;

namespace {

base::Path identityFile(const base::Path& folder) {
  return folder / "laptop-id";
}

} // namespace

base::Result<base::LaptopId> laptopIdentity(const base::Path& folder, base::Instant now,
                                            base::Random& random) {
  const auto path = identityFile(folder);
  const auto kept = base::readFile(path);
  if (kept) {
    const auto id = base::Uuid::parse(base::trim(*kept));
    if (!id)
      return Error{ErrorCode::textMalformed,
                   path.string() +
                       " does not hold this laptop's identity; restore it from a backup"};
    return base::LaptopId(*id);
  }
  if (kept.error().code != ErrorCode::fileNotFound) return kept.error();
  return renewLaptopIdentity(folder, now, random);
}

base::Result<base::LaptopId> renewLaptopIdentity(const base::Path& folder, base::Instant now,
                                                 base::Random& random) {
  if (const auto made = base::makeFolder(folder); !made) return made.error();
  const auto id = base::makeUuid7(now, random);
  if (const auto written = base::replaceFile(identityFile(folder), id.text() + "\n"); !written)
    return written.error();
  return base::LaptopId(id);
}

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
