#include "ui/sheets/square_code.h"

#include "core/chemistry/label.h"
#include "ui/sheets/words.h"

#include <QImageReader>
#include <QPainter>
#include <QTransform>
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <ZXing/ReadBarcode.h>
#include <exception>

namespace washfast::ui::sheets {

namespace {

constexpr int quietModules = 4; // ISO/IEC 18004
constexpr int errorLevel = 4; // of 0 to 8; more would make the modules smaller, which a phone minds more than a stain
constexpr double sizes[] = { 1, 0.75, 0.5, 0.35, 0.25 }; // a noisy photo is often read better when it is made smaller
constexpr int largestSide = 3200, leastSide = 240; // px
constexpr double secondTurn = 33; // degrees: the second look at a photo that stands askew

void readInto(QStringList& codes, const QImage& grey)
{
    ZXing::DecodeHints hints;
    hints.setFormats(ZXing::BarcodeFormat::QRCode);
    hints.setTryHarder(true);
    hints.setTryRotate(true);
    const ZXing::ImageView view(
        grey.constBits(), grey.width(), grey.height(), ZXing::ImageFormat::Lum, int(grey.bytesPerLine()));
    for (const auto& found : ZXing::ReadBarcodes(view, hints)) {
        if (!found.isValid())
            continue;
        const auto code = chemistry::codeFromPayload(QString::fromStdWString(found.text()));
        if (code && !codes.contains(*code))
            codes << *code;
    }
}

} // namespace

void paintSquareCode(QPainter& painter, const QRectF& box, const QString& text)
{
    painter.fillRect(box, Qt::white);
    ZXing::MultiFormatWriter writer(ZXing::BarcodeFormat::QRCode);
    writer.setEncoding(ZXing::CharacterSet::UTF8).setEccLevel(errorLevel).setMargin(quietModules);
    ZXing::BitMatrix matrix;
    try {
        matrix = writer.encode(text.toStdWString(), 0, 0);
    } catch (const std::exception&) { // longer than a symbol can hold: the printed code beside it stays
        return;
    }
    const double module = qMin(box.width() / matrix.width(), box.height() / matrix.height());
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(Qt::NoPen);
    painter.setBrush(Qt::black);
    for (int y = 0; y < matrix.height(); ++y)
        for (int x = 0; x < matrix.width(); ++x) {
            if (!matrix.get(x, y))
                continue;
            int end = x;
            while (end < matrix.width() && matrix.get(end, y))
                ++end;
            painter.drawRect(QRectF(box.left() + x * module, box.top() + y * module, (end - x) * module, module));
            x = end;
        }
    painter.restore();
}

QStringList readLabels(const QImage& photo)
{
    QStringList codes;
    if (photo.isNull())
        return codes;
    QImage grey = photo.convertToFormat(QImage::Format_Grayscale8);
    if (qMax(grey.width(), grey.height()) > largestSide)
        grey = grey.scaled(largestSide, largestSide, Qt::KeepAspectRatio, Qt::SmoothTransformation);
    for (const double turn : { 0.0, secondTurn }) {
        const QImage turned = turn == 0.0 ? grey
                                          : grey.transformed(QTransform().rotate(turn), Qt::SmoothTransformation)
                                                .convertToFormat(QImage::Format_Grayscale8);
        for (const double size : sizes) {
            const QSize pixels = turned.size() * size;
            if (!codes.isEmpty() || qMax(pixels.width(), pixels.height()) < leastSide)
                break;
            readInto(
                codes, size == 1.0 ? turned : turned.scaled(pixels, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
        }
    }
    return codes;
}

std::optional<QString> readLabel(const QImage& photo)
{
    const auto codes = readLabels(photo);
    return codes.size() == 1 ? std::optional(codes.first()) : std::nullopt;
}

std::optional<qint64> printInPhoto(const Notebook& notebook, const QImage& photo)
{
    const auto code = readLabel(photo);
    return code ? notebook.byName(Entity::Print, *code) : std::nullopt;
}

std::vector<LabelledPhoto> assignByLabel(const Notebook& notebook, const QStringList& paths)
{
    std::vector<LabelledPhoto> assigned;
    for (const auto& path : paths) {
        LabelledPhoto one { path, std::nullopt, {} };
        QImageReader reader(path);
        reader.setAutoTransform(true);
        const auto codes = readLabels(reader.read());
        if (codes.isEmpty())
            one.says = SheetsWords::tr("No print label can be read in it.");
        else if (codes.size() > 1)
            one.says = SheetsWords::tr("It shows several print labels: %1.").arg(codes.join(QStringLiteral(", ")));
        else if (one.print = notebook.byName(Entity::Print, codes.first()); !one.print)
            one.says = SheetsWords::tr("Its label says %1; this notebook has no such print.").arg(codes.first());
        assigned.push_back(one);
    }
    return assigned;
}

} // namespace washfast::ui::sheets
