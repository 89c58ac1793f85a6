// The eyes of these tests: whatever is written in English into a widget, a model, a menu or a picture is seen.
#include "tests/i18n/made_up_language.h"
#include "tests/i18n/seen_text.h"

#include <QComboBox>
#include <QLabel>
#include <QMenuBar>
#include <QPaintEvent>
#include <QStandardItemModel>
#include <QTableView>
#include <QVBoxLayout>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast::i18n;
using testing::HasSubstr;

namespace {

class Painted final : public QWidget {
    void paintEvent(QPaintEvent*) override
    {
        QPainter painter(this);
        painter.drawText(rect(), QStringLiteral("drawn"));
    }
};

} // namespace

TEST(SeenText, EveryPlaceWhereAPersonReads)
{
    QWidget window;
    window.setWindowTitle(QStringLiteral("titled"));
    auto* column = new QVBoxLayout(&window);
    auto* label = new QLabel(QStringLiteral("<b>labelled</b>"), &window);
    label->setToolTip(QStringLiteral("tipped"));
    label->setAccessibleName(QStringLiteral("named"));
    label->setAccessibleDescription(QStringLiteral("described"));
    auto* line = new QLineEdit(&window);
    line->setPlaceholderText(QStringLiteral("placed"));
    auto* box = new QComboBox(&window);
    box->addItem(QStringLiteral("chosen"));
    auto* table = new QTableView(&window);
    auto* model = new QStandardItemModel(1, 1, table);
    model->setHorizontalHeaderLabels({ QStringLiteral("headed") });
    model->setItem(0, 0, new QStandardItem(QStringLiteral("celled")));
    model->item(0, 0)->setToolTip(QStringLiteral("hovered"));
    table->setModel(model);
    auto* menus = new QMenuBar(&window);
    menus->addMenu(QStringLiteral("menued"))->addAction(QStringLiteral("acted"));
    auto* painted = new Painted;
    painted->setMinimumHeight(30);
    for (QWidget* widget : std::initializer_list<QWidget*> { menus, label, line, box, table, painted })
        column->addWidget(widget);
    window.show();
    SeenText seen;
    seen.read(window);
    const auto left = seen.leftIn(DataWords());
    for (const char* word : { "titled", "labelled", "tipped", "named", "described", "placed", "chosen", "headed",
             "celled", "hovered", "menued", "acted", "drawn" })
        EXPECT_THAT(left, HasSubstr(word));
    DataWords data;
    data.add(QStringLiteral("titled labelled tipped named described placed chosen headed celled hovered menued acted "
                            "drawn"));
    EXPECT_EQ(seen.leftIn(data), "");
}

TEST(SeenText, WhatIsNoText)
{
    SeenText seen;
    for (const char* text : { "K3[Fe(CN)6], NaHCO3, H2O2", "*.csv *.washfast", "UVA, PDF, CSV", "14:05, 3.5" })
        seen.add(QStringLiteral("here"), QString::fromUtf8(text));
    EXPECT_EQ(seen.leftIn(DataWords()), "");
}

// What no translation has is noticed, whoever asks for it.
TEST(MadeUp, TellsWhatIsInNoTranslation)
{
    auto& language = MadeUpLanguage::spoken();
    EXPECT_EQ(QCoreApplication::translate("Window", "Bench"), madeUp("Bench"));
    EXPECT_EQ(language.takeMissing(), "");
    const char* forgotten = "A sentence that nobody marked.";
    EXPECT_EQ(QCoreApplication::translate("Window", forgotten), QString::fromUtf8(forgotten));
    EXPECT_EQ(QCoreApplication::translate("Nowhere", "Bench"), QStringLiteral("Bench"));
    EXPECT_EQ(language.takeMissing(), "Nowhere: Bench\nWindow: A sentence that nobody marked.");
    EXPECT_EQ(language.takeMissing(), "");
}

TEST(MadeUp, KeepsWhatATranslatorKeeps)
{
    EXPECT_EQ(madeUp("Bench"), QString::fromUtf8("Бднвз"));
    EXPECT_EQ(madeUp("%1 of %n in <b>a</b>&nbsp;b"), QString::fromUtf8("%1 ое %n ин <b>а</b>&nbsp;б"));
    EXPECT_EQ(madeUp("Tables (*.csv *.txt)"), QString::fromUtf8("Уаблдт (*.csv *.txt)"));
    EXPECT_EQ(madeUp("&Open"), QString::fromUtf8("&Опдн"));
}

} // namespace WASHFAST_FILE
