#include "session/book/snapshot.h"
#include "session/reader_held.h"
#include "session/session.h"

#include "vault/vault.h"

// Papers that name children, as one file that only this logbook opens: docs/formats.md, "Sealed
// papers".
namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

/// Begins the file; its number is the layout's.
constexpr std::string_view mark = "Groovekeeper papers 1\n";

Error unreadable(std::string why) {
  return {ErrorCode::papersUnreadable, std::move(why)};
}

/// The mark and the logbook's identity, in clear; the box is bound to both.
std::string headOf(const base::Uuid& book) {
  std::string head(mark);
  head.append(book.bytes.begin(), book.bytes.end());
  return head;
}

} // namespace

Result<std::string> Snapshot::sealPapers(const std::vector<exchange::Paper>& papers) {
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to export its papers"};
  if (const auto newest = sealsWithNewest(book_, *vault_); !newest) return newest.error();
  auto file = headOf(book_.identity());
  auto plain = exchange::packed(papers);
  const auto sealed = vault_->sealFile(file, plain, world_.random);
  crypto::wipe(plain);
  file.append(sealed.nonce.begin(), sealed.nonce.end());
  file.append(sealed.box.begin(), sealed.box.end());
  return file;
}

Result<std::vector<exchange::Paper>> Session::openPapers(std::string_view file) {
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook to open its papers"};
  const auto head = headOf(book_.identity());
  if (!file.starts_with(mark)) return unreadable("it is no file of exported papers");
  if (file.size() < head.size() + crypto::nonceSize + crypto::tagSize)
    return unreadable("the end of it is missing");
  if (!file.starts_with(head)) return unreadable("it was exported from another logbook");
  const auto nonce = file.substr(head.size(), crypto::nonceSize);
  const auto box = file.substr(head.size() + crypto::nonceSize);
  auto plain = vault_->openFile(head, {{nonce.begin(), nonce.end()}, {box.begin(), box.end()}});
  if (!plain) {
    if (plain.error().code != ErrorCode::vaultDamaged) return plain.error();
    return unreadable("it was changed, its end is missing, or the key of the names was replaced "
                      "since on another laptop");
  }
  const auto bytes = plain->bytes();
  return exchange::unpacked({reinterpret_cast<const char*>(bytes.data()), bytes.size()});
}

} // namespace gk::session
