#include "pdf_outline.h"

#include <array>
#include <cstdio>
#include <exception>
#include <memory>

#define POINTERHOLDER_TRANSITION 4  // no transitional pointer type
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

namespace ductwright::report {
namespace {

// One level of the outline: its entries are linked to each other and to what they stand under.
class Level {
 public:
  Level(QPDF& pdf, QPDFObjectHandle parent) : m_pdf(pdf), m_parent(std::move(parent)) {}

  QPDFObjectHandle add(const Bookmark& bookmark, const QPDFObjectHandle& page) {
    QPDFObjectHandle item = m_pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
    item.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(bookmark.title));
    item.replaceKey("/Parent", m_parent);
    QPDFObjectHandle target = QPDFObjectHandle::newArray();
    target.appendItem(page);
    target.appendItem(QPDFObjectHandle::newName("/Fit"));
    item.replaceKey("/Dest", target);
    if (m_count == 0) m_parent.replaceKey("/First", item);
    else {
      item.replaceKey("/Prev", m_last);
      m_last.replaceKey("/Next", item);
    }
    m_parent.replaceKey("/Last", item);
    m_last = item;
    ++m_count;
    return item;
  }
  // Positive: shown open; negative: closed.
  void close(bool open) {
    if (m_count > 0) m_parent.replaceKey("/Count", QPDFObjectHandle::newInteger(open ? m_count : -m_count));
  }

 private:
  QPDF& m_pdf;
  QPDFObjectHandle m_parent, m_last;
  int m_count = 0;
};

void addOutline(QPDF& pdf, const std::vector<Bookmark>& bookmarks) {
  if (bookmarks.empty()) return;
  const std::vector<QPDFObjectHandle>& pages = pdf.getAllPages();
  QPDFObjectHandle root = pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
  root.replaceKey("/Type", QPDFObjectHandle::newName("/Outlines"));
  Level top(pdf, root);
  std::unique_ptr<Level> under;
  for (const Bookmark& bookmark : bookmarks) {
    const QPDFObjectHandle& page = pages.at(bookmark.page);
    if (bookmark.level > 0 && under) {
      under->add(bookmark, page);
      continue;
    }
    if (under) under->close(false);
    under = std::make_unique<Level>(pdf, top.add(bookmark, page));
  }
  if (under) under->close(false);
  top.close(true);
  pdf.getRoot().replaceKey("/Outlines", root);
  pdf.getRoot().replaceKey("/PageMode", QPDFObjectHandle::newName("/UseOutlines"));
}

// "D:20261125101500+01'00'" (PDF 32000-1, 7.9.4).
std::string pdfDate(fleet::Timestamp at) {
  const std::string iso = at.text();  // 2026-11-25T10:15:00+01:00
  std::string digits;
  for (const char c : iso.substr(0, 19)) {
    if (c >= '0' && c <= '9') digits += c;
  }
  const int offset = at.offsetMinutes < 0 ? -at.offsetMinutes : at.offsetMinutes;
  std::array<char, 16> zone{};
  std::snprintf(zone.data(), zone.size(), "%c%02d'%02d'", at.offsetMinutes < 0 ? '-' : '+', offset / 60, offset % 60);
  return "D:" + digits + zone.data();
}

void setInformation(QPDF& pdf, const PdfFinish& finish) {
  QPDFObjectHandle info = pdf.makeIndirectObject(QPDFObjectHandle::newDictionary());
  info.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(finish.title));
  info.replaceKey("/Subject", QPDFObjectHandle::newUnicodeString(finish.subject));
  info.replaceKey("/Creator", QPDFObjectHandle::newUnicodeString("Ductwright"));
  info.replaceKey("/CreationDate", QPDFObjectHandle::newString(pdfDate(finish.created)));
  info.replaceKey("/ModDate", QPDFObjectHandle::newString(pdfDate(finish.created)));
  pdf.getTrailer().replaceKey("/Info", info);
  pdf.getRoot().removeKey("/Metadata");  // it repeats the clock
}

}  // namespace

Result<void> finishPdf(const std::string& from, const std::string& to, const PdfFinish& finish) {
  try {
    QPDF pdf;
    pdf.processFile(from.c_str());
    addOutline(pdf, finish.bookmarks);
    setInformation(pdf, finish);
    QPDFWriter writer(pdf, to.c_str());
    writer.setDeterministicID(true);
    writer.setStreamDataMode(qpdf_s_preserve);
    writer.setObjectStreamMode(qpdf_o_disable);
    writer.write();
    return {};
  } catch (const std::exception& error) {
    return failure("The report could not be written to “" + to + "”: " + error.what() + ". Check the space left and the folder.");
  }
}

}  // namespace ductwright::report
