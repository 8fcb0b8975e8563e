#include "pdf_report.h"

#include <QFile>
#include <QPageSize>
#include <QPdfWriter>

#include "page_painter.h"
#include "pdf_outline.h"
#include "scratch_file.h"

namespace ductwright::report {
namespace {

constexpr int kDotsPerInch = 1200;
constexpr double kLayOutShare = 0.15;  // of the work: laying out before the first page, to know how many there are

QString toText(const std::string& utf8) { return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size())); }

tl::unexpected<Failure> cancelled() { return failure("The report was cancelled; nothing was written."); }

tl::unexpected<Failure> unwritable(const std::string& path, const QString& why) {
  return failure("The report cannot be written to “" + path + "”: " + why.toStdString() + ". Choose another folder or name.");
}

class Press {
 public:
  Press(const Document& document, const Paper& paper, const Progress& progress, std::stop_token stop)
      : m_document(document), m_paper(paper), m_progress(progress), m_stop(std::move(stop)) {}

  // First pass: where each section begins, and how many pages there are.
  bool count() {
    for (std::size_t i = 0; i < m_document.sections.size(); ++i) {
      if (m_stop.stop_requested()) return false;
      const Section section = m_document.sections[i]();
      m_bookmarks.push_back({section.title, section.level, m_pages});
      m_pages += layOut(section, m_paper, m_typeface).pages.size();
      tell(kLayOutShare * share(i));
    }
    return true;
  }

  bool print(QPdfWriter& writer) {
    QCPPainter painter(&writer);
    painter.setMode(QCPPainter::pmVectorized);
    painter.setMode(QCPPainter::pmNoCaching);
    painter.scale(kDotsPerInch / 72.0, kDotsPerInch / 72.0);
    PagePainter pages(painter, m_paper, m_typeface);
    PageFrame frame{toText(m_document.project), {}, toText(m_document.title), toText(m_document.date), toText(m_document.digest), 0, m_pages};
    for (std::size_t i = 0; i < m_document.sections.size(); ++i) {
      const Section section = m_document.sections[i]();
      const SectionLayout layout = layOut(section, m_paper, m_typeface);
      frame.section = toText(section.title);
      for (const PageLayout& page : layout.pages) {
        if (m_stop.stop_requested()) return false;
        if (frame.number > 0 && !writer.newPage()) return false;
        ++frame.number;
        pages.frame(frame);
        pages.page(layout, page);
      }
      tell(kLayOutShare + (1 - kLayOutShare) * share(i));
    }
    return true;
  }

  [[nodiscard]] const std::vector<Bookmark>& bookmarks() const { return m_bookmarks; }
  [[nodiscard]] bool stopped() const { return m_stop.stop_requested(); }
  [[nodiscard]] bool empty() const { return m_pages == 0; }

 private:
  [[nodiscard]] double share(std::size_t done) const {
    return static_cast<double>(done + 1) / static_cast<double>(m_document.sections.size());
  }
  void tell(double share) const {
    if (m_progress) m_progress(share);
  }

  const Document& m_document;
  Paper m_paper;
  const Progress& m_progress;
  std::stop_token m_stop;
  Typeface m_typeface;
  std::vector<Bookmark> m_bookmarks;
  std::size_t m_pages = 0;
};

void prepare(QPdfWriter& writer, const Paper& paper) {
  writer.setResolution(kDotsPerInch);
  writer.setPageSize(QPageSize(QSizeF(paper.width, paper.height), QPageSize::Point, {}, QPageSize::ExactMatch));
  writer.setPageMargins(QMarginsF(0, 0, 0, 0));
}

}  // namespace

Result<void> writePdf(const Document& document, const Paper& paper, fleet::Timestamp created, const std::string& path,
                      const Progress& progress, std::stop_token stop) {
  Press press(document, paper, progress, std::move(stop));
  if (!press.count()) return cancelled();
  if (press.empty()) return failure("There is nothing to report: no section has any content.");
  const ScratchFile raw(path, ".pages");
  {
    QFile file(toText(raw.path()));
    if (!file.open(QIODevice::WriteOnly)) return unwritable(path, file.errorString());
    QPdfWriter writer(&file);
    prepare(writer, paper);
    if (!press.print(writer)) return press.stopped() ? cancelled() : unwritable(path, file.errorString());
    if (file.error() != QFileDevice::NoError) return unwritable(path, file.errorString());
  }
  return finishPdf(raw.path(), path, {press.bookmarks(), document.title, document.project, created});
}

}  // namespace ductwright::report
