#pragma once

#include "ui/asking/context.h"
#include "ui/support/text.h"

#include <functional>
#include <string>

namespace gk::ui {

/// Pages that name students, to be kept as a file.
struct NamedFile {
  QString name;                 ///< suggested, without its ending
  QString filter;               ///< of the plain file, as QFileDialog has it
  QString title;                ///< of the dialog
  QStringList plain{u".pdf"_s}; ///< endings that a plain file may have; the first where it has none
  QStringList sealed{u".pdf"_s}; ///< what goes into the sealed one
};

/// What a file of that ending holds; made in another thread.
using MakeBytes =
    std::function<base::Result<std::string>(const QString& ending, const base::Progress&)>;

/// The one way in which what names students becomes a file: sealed, so that this logbook alone
/// opens it, or plain, after it was said what that means. Written whole or not at all, as long work
/// of `owner`, whose `then` is given the path. False, and nothing happens, when the person backed
/// out. Fails as Snapshot::sealPapers and replaceFile.
bool saveNamed(Context& context, LongKind kind, QObject* owner, const NamedFile& file,
               MakeBytes bytes, std::function<void(const base::Result<QString>&)> then);

/// Where it is, and how a sealed one is opened.
QString savedWords(const QString& path);

} // namespace gk::ui
