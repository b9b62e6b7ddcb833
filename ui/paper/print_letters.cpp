#include "ui/paper/print_letters.h"

#include "ui/support/text.h"

#include <QAbstractTextDocumentLayout>
#include <QBuffer>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QPdfWriter>
#include <QPrinter>
#include <QTextDocument>

#include <memory>

namespace gk::ui {

namespace {

const QString style =
    u"p { margin: 0 0 1px 0; } p.title { font-size: 17px; margin: 0 0 6px 0; }"
    " p.head { margin: 4px 0 0 0; } ul { margin: 0; } td, th { font-size: 10px; }"_s;

/// Qt sizes headings by its own scale, whatever the style says; bold lines keep to theirs.
QString withPlainHeadings(QString html) {
  html.replace(u"<h1>"_s, u"<p class=\"title\"><b>"_s).replace(u"</h1>"_s, u"</b></p>"_s);
  html.replace(u"<h2>"_s, u"<p class=\"head\"><b>"_s).replace(u"</h2>"_s, u"</b></p>"_s);
  return html;
}

/// One unit is a point, so that the lines break alike on every device.
QFont fontOf(int points, bool bold = false) {
  QFont font(u"Sans Serif"_s);
  font.setPixelSize(points);
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  return font;
}

std::unique_ptr<QTextDocument> documentOf(const std::string& body, int points, bool rightToLeft,
                                          QSizeF room) {
  auto made = std::make_unique<QTextDocument>();
  made->setUseDesignMetrics(true);
  made->setDefaultFont(fontOf(points));
  made->setDefaultStyleSheet(style);
  made->setDocumentMargin(0);
  QTextOption option;
  option.setTextDirection(rightToLeft ? Qt::RightToLeft : Qt::LeftToRight);
  made->setDefaultTextOption(option);
  made->setHtml(u"<html dir=\"%1\"><body>%2</body></html>"_s.arg(rightToLeft ? u"rtl"_s : u"ltr"_s,
                                                                 withPlainHeadings(toQt(body))));
  made->setPageSize(room);
  return made;
}

std::unique_ptr<QTextDocument> documentOf(const reports::LetterText& letter,
                                          const LetterSheet& sheet) {
  return documentOf(reports::toHtmlBody(letter), 11, letter.rightToLeft,
                    {sheet.textWidth(), sheet.footTop() - 6 - sheet.textTop()});
}

std::unique_ptr<QTextDocument> documentOf(const reports::UrgentForm& form,
                                          const LetterSheet& sheet) {
  return documentOf(reports::toHtmlBody(form), 12, false,
                    {sheet.textWidth(), sheet.footTop() - 10 - LetterSheet::margin});
}

void drawPage(QPainter& painter, const QTextDocument& document, int page, double top) {
  const auto size = document.pageSize();
  painter.save();
  painter.translate(LetterSheet::margin, top - page * size.height());
  const QRectF shown(0, page * size.height(), size.width(), size.height());
  painter.setClipRect(shown);
  QAbstractTextDocumentLayout::PaintContext context;
  context.clip = shown;
  context.palette.setColor(QPalette::Text, Qt::black);
  document.documentLayout()->draw(&painter, context);
  painter.restore();
}

void drawFoot(QPainter& painter, const LetterSheet& sheet, const QString& who, const QString& page,
              bool rightToLeft) {
  const QRectF foot(LetterSheet::margin, sheet.footTop(), sheet.textWidth(), 14);
  painter.setFont(fontOf(9));
  painter.drawLine(foot.topLeft(), foot.topRight());
  const auto start = rightToLeft ? Qt::AlignRight : Qt::AlignLeft;
  const auto end = rightToLeft ? Qt::AlignLeft : Qt::AlignRight;
  painter.drawText(foot, static_cast<int>(start | Qt::AlignBottom), who);
  painter.drawText(foot, static_cast<int>(end | Qt::AlignBottom), page);
}

void drawFold(QPainter& painter, double width, double at, const QString& how) {
  constexpr double length = 20;
  QPen dashes(Qt::black, 0.7, Qt::DashLine);
  painter.setPen(dashes);
  painter.drawLine(QPointF(14, at), QPointF(14 + length, at));
  painter.drawLine(QPointF(width - 14 - length, at), QPointF(width - 14, at));
  painter.setPen(Qt::black);
  painter.setFont(fontOf(7));
  painter.drawText(QPointF(14, at + 9), how);
}

void drawAddress(QPainter& painter, const LetterSheet& sheet, const reports::LetterText& letter) {
  const auto side = letter.rightToLeft ? Qt::AlignRight : Qt::AlignLeft;
  const QRectF name(LetterSheet::margin + 40, 110, sheet.textWidth() - 80, 30);
  painter.setFont(fontOf(18, true));
  painter.drawText(name, static_cast<int>(side | Qt::AlignVCenter), toQt(letter.child));
  painter.setFont(fontOf(14));
  painter.drawText(name.translated(0, 30), static_cast<int>(side | Qt::AlignVCenter),
                   letter.room.empty() ? QString() : toQt(letter.header.roomWords(letter.room)));
  drawFold(painter, sheet.width, sheet.firstFold(), u"fold back"_s);
  drawFold(painter, sheet.width, sheet.secondFold(), u"fold in"_s);
}

/// Every page of every one, a fresh sheet each time.
template <class Thing>
void printAll(QPagedPaintDevice& device, const std::vector<Thing>& things, PaperSize paper,
              const base::Progress& progress) {
  device.setPageLayout(pageOf(paper));
  QPainter painter(&device);
  if (!painter.isActive()) return;
  painter.scale(device.logicalDpiX() / 72.0, device.logicalDpiY() / 72.0);
  bool isFirst = true;
  std::int64_t done = 0;
  for (const auto& thing : things) {
    progress.at(base::Stage::drawing, done++, std::ssize(things));
    if (progress.isStopped()) {
      if (auto* printer = dynamic_cast<QPrinter*>(&device)) printer->abort();
      return;
    }
    const int pages = pagesOf(thing, paper);
    for (int page = 0; page < pages; ++page) {
      if (!isFirst) device.newPage();
      isFirst = false;
      paintPage(painter, thing, paper, page);
    }
  }
}

} // namespace

LetterSheet letterSheet(PaperSize paper) {
  const auto size = sizeOf(paper);
  return {size.width(), size.height()};
}

void paintPage(QPainter& painter, const reports::LetterText& letter, PaperSize paper, int page) {
  const auto sheet = letterSheet(paper);
  const auto document = documentOf(letter, sheet);
  painter.setPen(Qt::black);
  drawAddress(painter, sheet, letter);
  drawPage(painter, *document, page, sheet.textTop());
  drawFoot(painter, sheet, toQt(letter.child + ", " + letter.dateWords),
           toQt(letter.header.pageWords(page + 1, document->pageCount())), letter.rightToLeft);
}

void paintPage(QPainter& painter, const reports::UrgentForm& form, PaperSize paper, int page) {
  const auto sheet = letterSheet(paper);
  const auto document = documentOf(form, sheet);
  painter.setPen(Qt::black);
  drawPage(painter, *document, page, LetterSheet::margin);
  drawFoot(painter, sheet, toQt(form.legalName + ", " + form.number),
           u"page %1 of %2"_s.arg(page + 1).arg(document->pageCount()), false);
}

void printLetters(QPagedPaintDevice& device, const std::vector<reports::LetterText>& letters,
                  PaperSize paper, const base::Progress& progress) {
  printAll(device, letters, paper, progress);
}

void printForms(QPagedPaintDevice& device, const std::vector<reports::UrgentForm>& forms,
                PaperSize paper, const base::Progress& progress) {
  printAll(device, forms, paper, progress);
}

int pagesOf(const reports::LetterText& letter, PaperSize paper) {
  return documentOf(letter, letterSheet(paper))->pageCount();
}

int pagesOf(const reports::UrgentForm& form, PaperSize paper) {
  return documentOf(form, letterSheet(paper))->pageCount();
}

QByteArray asPdf(const QString& title, const std::function<void(QPagedPaintDevice&)>& paint) {
  QByteArray bytes;
  QBuffer file(&bytes);
  file.open(QIODevice::WriteOnly);
  QPdfWriter writer(&file);
  writer.setTitle(title);
  writer.setCreator(u"Groovekeeper"_s);
  paint(writer);
  return bytes;
}

} // namespace gk::ui
