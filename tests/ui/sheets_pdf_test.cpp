// Labels, risk sheet and teaching sheet on paper: what they say comes from the chemistry, nothing falls off the page or
// out of a label, and the files are PDF.
#include "ui/mixing/check_page.h"
#include "ui/mixing/mixing_view.h"
#include "ui/sheets/documents.h"
#include "ui/sheets/label_paint.h"
#include "ui/sheets/pictogram_paint.h"
#include "ui/sheets/square_code.h"

#include "tests/support/prints_fixture.h"

#include <QDir>
#include <QFile>
#include <QPainter>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::ui;

namespace {

/// Pictures for looking at, when a folder is named.
void keepPicture(const QImage& image, const char* name)
{
    if (const auto folder = qEnvironmentVariable("WASHFAST_PICTURES"); !folder.isEmpty())
        EXPECT_TRUE(image.save(QDir(folder).filePath(QLatin1String(name))));
}

bool whiteAround(const QImage& page, int pixels)
{
    for (int y = 0; y < page.height(); ++y)
        for (int x = 0; x < page.width(); ++x) {
            const bool inside = x >= pixels && y >= pixels && x < page.width() - pixels && y < page.height() - pixels;
            if (!inside && qGray(page.pixel(x, y)) < 200)
                return false;
        }
    return true;
}

const QStringList chlorideRoute { QStringLiteral("C6H8O7"), QStringLiteral("FeCl3.6H2O"),
    QStringLiteral("NH4HCO3.NH2COONH4"), QStringLiteral("K3[Fe(CN)6]") };

chemistry::BottleLabel fullLabel()
{
    auto label = chemistry::bottleLabel(QStringLiteral("Mix M4"), chlorideRoute);
    label.contents << QStringLiteral("iron 0.336 mol/L, hexacyanoferrate 0.152 mol/L");
    label.made = QStringLiteral("2026-05-04");
    label.note = QStringLiteral("Vented cap. Not tight while it fizzes.");
    return label;
}

chemistry::Audit classroomBatch()
{
    // A small classroom batch of common practice, no source.
    chemistry::Batch batch;
    batch.volume_ml = 20;
    for (const auto& [substance, grams] : { std::pair("C6H8O7", 0.6), std::pair("FeCl3.6H2O", 0.6),
             std::pair("NH4HCO3.NH2COONH4", 1.0), std::pair("K3[Fe(CN)6]", 1.0) })
        batch.parts.push_back({ QLatin1String(substance), grams, std::nullopt });
    return chemistry::audit(batch);
}

} // namespace

TEST(LabelPages, ABottleLabelSaysWhatTheChemistrySays)
{
    const auto label = fullLabel();
    QStringList codes;
    for (const auto& hazard : label.hazards) {
        codes << hazard.code;
        EXPECT_EQ(hazard.text, chemistry::statementText(hazard.code));
        EXPECT_FALSE(hazard.text.isEmpty()) << hazard.code.toStdString();
        if (hazard.code == QLatin1String("EUH032") || hazard.code == QLatin1String("H317"))
            EXPECT_TRUE(hazard.disputed) << "only some suppliers state it";
        if (hazard.code == QLatin1String("H318"))
            EXPECT_FALSE(hazard.disputed);
    }
    EXPECT_TRUE(codes.contains(QStringLiteral("H318")));
    EXPECT_EQ(label.signal, QStringLiteral("Danger"));
    EXPECT_TRUE(label.footing.contains(chemistry::deferral()));
}

TEST(LabelPages, LabelsLieOnThePageAndDoNotTouch)
{
    for (const auto& sheet : chemistry::labelSheets()) {
        for (int place = 0; place < sheet.places(); ++place) {
            const auto box = sheets::labelBox(sheet, place);
            EXPECT_GE(box.left(), -0.01) << sheet.key.toStdString();
            EXPECT_GE(box.top(), -0.01);
            EXPECT_LE(box.right(), sheets::mm(chemistry::pageWidthMm) + 0.01);
            EXPECT_LE(box.bottom(), sheets::mm(chemistry::pageHeightMm) + 0.01);
            for (int other = 0; other < place; ++other) {
                const auto common = box.intersected(sheets::labelBox(sheet, other));
                EXPECT_LT(common.width() * common.height(), 0.1);
            }
        }
        EXPECT_EQ(sheets::labelPages(sheet, sheet.places()), 1);
        EXPECT_EQ(sheets::labelPages(sheet, sheet.places(), 1), 2) << "a sheet that was begun";
    }
}

TEST(LabelPages, EachKindIsPaintedInsideItsMargin)
{
    for (const auto& sheet : chemistry::labelSheets()) {
        const auto page = sheets::pageImage(
            sheets::labelPainter(
                sheet, { fullLabel(), chemistry::PrintLabel { QStringLiteral("A1-03"), QStringLiteral("A1") } }),
            0, 254);
        keepPicture(page, qPrintable(QStringLiteral("labels-%1.png").arg(sheet.key)));
        const auto box = sheets::labelBox(sheet, 0);
        const double scale = 10.0 / sheets::unitsPerMm; // 254 dots an inch
        const auto label
            = page.copy(QRectF(box.left() * scale, box.top() * scale, box.width() * scale, box.height() * scale)
                            .adjusted(1, 1, -1, -1)
                            .toRect());
        EXPECT_TRUE(whiteAround(label, 12)) << sheet.key.toStdString();
        EXPECT_FALSE(whiteAround(label, label.height() / 2 - 8)) << "something stands on it";
    }
}

TEST(LabelPages, EveryPictogramIsADiamondWithARedEdgeAndASymbolOfItsOwn)
{
    std::vector<QImage> seen;
    QImage row(6 * 220, 220, QImage::Format_RGB32);
    row.fill(Qt::white);
    QPainter on_row(&row);
    for (const char* code : { "GHS03", "GHS05", "GHS06", "GHS07", "GHS08", "GHS09" }) {
        QImage image(200, 200, QImage::Format_RGB32);
        image.fill(Qt::white);
        {
            QPainter painter(&image);
            sheets::paintPictogram(painter, { 0, 0, 200, 200 }, QLatin1String(code));
        }
        const auto edge = image.pixelColor(55, 55); // the middle of one side
        EXPECT_GT(edge.red(), 180) << code;
        EXPECT_LT(edge.green(), 90) << code;
        EXPECT_EQ(image.pixelColor(8, 8), QColor(Qt::white)) << code;
        for (const auto& other : seen)
            EXPECT_NE(image, other) << code;
        on_row.drawImage(int(seen.size()) * 220 + 10, 10, image);
        seen.push_back(image);
    }
    on_row.end();
    keepPicture(row, "pictograms.png");
}

TEST(SheetPages, TheRiskSheetDefersAndFitsItsPages)
{
    auto sheet = chemistry::riskSheet(chlorideRoute, 6.2);
    EXPECT_EQ(sheet.substances.size(), 4u);
    EXPECT_TRUE(sheet.disclaimer.contains(QLatin1String("does not replace the school's own")));
    QStringList keys;
    for (const auto& caution : sheet.cautions)
        keys << caution.key;
    for (const char* key : { "acid_and_heat", "closed_bottle", "ammonia", "iron_chloride", "eyes_and_gloves", "mains",
             "sun", "glass", "waste" })
        EXPECT_TRUE(keys.contains(QLatin1String(key))) << key;
    sheet.session = QStringLiteral("A1");
    for (int page = 0; page < sheets::riskPages; ++page) {
        const auto image = sheets::pageImage(sheets::riskPainter(sheet), page, 110);
        keepPicture(image, qPrintable(QStringLiteral("risk-%1.png").arg(page + 1)));
        EXPECT_TRUE(whiteAround(image, 40)) << page;
    }
}

// 0.6/270.29 = 2.220 mmol iron in 20 mL: 0.111 mol/L; at 20 mL/m2 2.22 mmol/m2, which runs out before the 3.04 mmol/m2
// of hexacyanoferrate. 2.220 mmol x 306.90 g/mol = 0.681 g/m2; on 148 mm x 210 mm 21.2 mg. By hand.
TEST(SheetPages, TheTeachingSheetHasTheLessonsNumbersAndItsAnswers)
{
    const auto sheet = chemistry::teachingSheet(QStringLiteral("M4"), classroomBatch(), 20, { 148, 210 });
    ASSERT_TRUE(sheet) << sheet.error().sentence().toStdString();
    QString answers, questions;
    for (const auto& task : sheet->tasks) {
        answers += task.answer + QLatin1Char('\n');
        questions += task.asks + QLatin1Char('\n');
    }
    for (const char* number : { "2.22", "3.04", "0.681", "21.2", "iron" })
        EXPECT_TRUE(answers.contains(QLatin1String(number))) << number << " in\n" << answers.toStdString();
    EXPECT_FALSE(questions.contains(QLatin1String("0.681"))) << "no answer among the questions";
    for (int page = 0; page < sheets::teachingPages; ++page) {
        const auto image = sheets::pageImage(sheets::teachingPainter(*sheet), page, 110);
        keepPicture(image, qPrintable(QStringLiteral("teaching-%1.png").arg(page + 1)));
        EXPECT_TRUE(whiteAround(image, 40)) << page;
    }
    EXPECT_FALSE(chemistry::teachingSheet(QStringLiteral("M4"), {}, 20, { 148, 210 })) << "nothing is known of it";
}

namespace {

class SheetFiles : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        room.print("A1-01");
        room.print("A1-02");
        view = std::make_unique<MixingView>(room.services());
    }
    QByteArray written(const char* name) const
    {
        QFile file(folder.filePath(QLatin1String(name)));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    QString path(const char* name) const { return folder.filePath(QLatin1String(name)); }

    PrintsFixture room;
    QTemporaryDir folder;
    std::unique_ptr<MixingView> view;
};

} // namespace

TEST_F(SheetFiles, AllFourAreWritten)
{
    room.dialogs.willAnswer(0);
    room.dialogs.willSave(path("bottle.pdf"));
    view->saveBottleLabel();
    room.dialogs.willAnswer(1);
    room.dialogs.willType(text("3"));
    room.dialogs.willSave(path("prints.pdf"));
    view->savePrintLabels();
    room.dialogs.willSave(path("risk.pdf"));
    view->saveRiskSheet();
    room.dialogs.willSave(path("teaching.pdf"));
    view->saveTeachingSheet();
    for (const char* name : { "bottle.pdf", "prints.pdf", "risk.pdf", "teaching.pdf" }) {
        EXPECT_TRUE(written(name).startsWith("%PDF-")) << name;
        EXPECT_TRUE(written(name).contains("%%EOF")) << name;
    }
    EXPECT_TRUE(room.dialogs.allUsed());
    if (const auto keep = qEnvironmentVariable("WASHFAST_PICTURES"); !keep.isEmpty())
        for (const char* name : { "bottle.pdf", "prints.pdf", "risk.pdf", "teaching.pdf" })
            QFile::copy(path(name), QDir(keep).filePath(QLatin1String(name)));
}

TEST_F(SheetFiles, WhereNothingCanBeWrittenItIsSaid)
{
    room.dialogs.willSave(path("no/such/folder/risk.pdf"));
    view->saveRiskSheet();
    ASSERT_EQ(room.dialogs.texts(text("error")).size(), 1);
}

} // namespace WASHFAST_FILE
