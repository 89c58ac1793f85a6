// The two pages of the dialog that looks for signs: marking, and what was found.
#include "ui/common/controls.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_dialog.h"
#include "ui/reading/signs_picture.h"
#include "ui/reading/signs_record.h"
#include "ui/reading/signs_words.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

namespace washfast::ui {

namespace {

enum Column { Sign, Strength, Standing, Details, OnRecord, columns };
constexpr int panelWidth = 320, boxLetters = 14;

} // namespace

SignsDialog::SignsDialog(const Services& services, qint64 print, qint64 photo, QWidget* parent)
    : QDialog(parent, Qt::Window)
    , services_(services)
    , print_(print)
{
    now_ = storedSheet(services.desk, photo);
    setWindowTitle(tr("Signs in a photo: %1").arg(now_->name));
    resize(1060, 720);
    auto* rows = new QVBoxLayout(this);
    pages_ = new QTabWidget(this);
    pages_->setDocumentMode(true);
    rows->addWidget(pages_, 1);
    work_ = new WorkBar(this);
    opener_ = new SheetOpener(services.desk, *work_, this);
    buildMarkPage();
    buildSignsPage();
    pages_->setTabEnabled(1, false);
    rows->addWidget(work_);
    connect(opener_, &SheetOpener::opened, this, &SignsDialog::showSheet);
    connect(&watcher_, &QFutureWatcherBase::finished, this, &SignsDialog::take);
    connect(&services_.desk, &Desk::changed, this, &SignsDialog::fillTable); // undone elsewhere
    connect(&services_.desk, &Desk::reloaded, this, &SignsDialog::fillTable);
    connect(&services_.look, &ThemeSource::changed, this, [this](const Theme& theme) {
        canvas_->setTheme(theme);
        sheet_picture_->setTheme(theme);
        sign_picture_->setTheme(theme);
    });
    opener_->open(now_);
    fillBefore();
    showSheet();
}

void SignsDialog::buildMarkPage()
{
    auto* page = new QWidget(this);
    auto* row = new QHBoxLayout(page);
    canvas_ = new SheetCanvas(services_.look.theme(), page);
    row->addWidget(canvas_, 1);
    auto* panel = new QWidget(page);
    panel->setFixedWidth(panelWidth);
    auto* column = new QVBoxLayout(panel);
    column->setContentsMargins(8, 0, 0, 0);
    buildWhatToLookFor(*column);
    row->addWidget(panel);
    pages_->addTab(page, tr("&1 Mark the sheet"));
    connect(canvas_, &SheetCanvas::marksChanged, this, &SignsDialog::marksChanged);
}

void SignsDialog::buildWhatToLookFor(QVBoxLayout& column)
{
    auto* form = new QFormLayout;
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    column.addLayout(form);
    before_ = narrowBox(this, tr("Photo before the rinse"), boxLetters);
    form->addRow(tr("Before the &rinse"), before_);
    shown_ = narrowBox(this, tr("Photo that is marked now"), boxLetters);
    shown_->addItems({ tr("this photo"), tr("the one before the rinse") });
    shown_->setEnabled(false);
    form->addRow(tr("&Marking"), shown_);
    role_ = narrowBox(this, tr("What the next region shows"), boxLetters);
    for (const auto role : { SheetRole::Paper, SheetRole::Covered, SheetRole::White, SheetRole::Even, SheetRole::Edge })
        role_->addItem(sheetRoleLabel(role), int(role));
    form->addRow(tr("&Draw"), role_);
    auto* turn = new QPushButton(tr("&Turn the sheet by a quarter"), this);
    turn->setAutoDefault(false);
    turn->setToolTip(tr("The filled corner is the sheet's own top left."));
    column.addWidget(turn);
    auto* numbers = new QFormLayout;
    numbers->setRowWrapPolicy(QFormLayout::WrapLongRows);
    column.addLayout(numbers);
    const auto length = [&](const QString& label, const QString& name) {
        auto* box = new QDoubleSpinBox(this);
        box->setRange(5, 2000);
        box->setDecimals(0);
        box->setSuffix(tr(" mm"));
        box->setAccessibleName(name);
        numbers->addRow(label, box);
        connect(box, &QDoubleSpinBox::valueChanged, this, [this] {
            size_touched_ = true;
            size_note_->setText(tr("The size as typed here."));
        });
        return box;
    };
    width_ = length(tr("Sheet's &width"), tr("Width of the sheet"));
    height_ = length(tr("Sheet's &height"), tr("Height of the sheet"));
    size_note_ = wrapped(this);
    column.addWidget(size_note_);
    auto* strokes = new QFormLayout;
    strokes->setRowWrapPolicy(QFormLayout::WrapLongRows);
    column.addLayout(strokes);
    brush_ = narrowBox(this, tr("Direction of the brush strokes"), boxLetters);
    brush_->addItems({ tr("not known"), tr("from side to side"), tr("up and down"), tr("at an angle of") });
    strokes->addRow(tr("&Brush strokes"), brush_);
    angle_ = new QDoubleSpinBox(this);
    angle_->setRange(0, 179);
    angle_->setDecimals(0);
    angle_->setValue(45);
    angle_->setSuffix(tr("°"));
    angle_->setAccessibleName(tr("Angle of the brush strokes: 0 from side to side, 90 up and down"));
    angle_->setEnabled(false);
    strokes->addRow(tr("A&ngle"), angle_);
    look_for_ = new QPushButton(tr("&Look for signs"), this);
    look_for_->setDefault(true);
    column.addWidget(look_for_);
    hint_ = wrapped(this);
    hint_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column.addWidget(hint_);
    column.addStretch(1);
    connect(before_, &QComboBox::activated, this, &SignsDialog::chooseBefore);
    connect(shown_, &QComboBox::activated, this, &SignsDialog::showSheet);
    connect(role_, &QComboBox::currentIndexChanged, this,
        [this] { canvas_->setRole(static_cast<SheetRole>(role_->currentData().toInt())); });
    connect(brush_, &QComboBox::currentIndexChanged, this, [this](int at) { angle_->setEnabled(at == 3); });
    connect(turn, &QPushButton::clicked, this, [this] {
        if (const auto& sheet = canvas_->sheet(); sheet && sheet->photo) {
            sheet->turn();
            canvas_->update();
            marksChanged();
        }
    });
    connect(look_for_, &QPushButton::clicked, this, &SignsDialog::look);
}

void SignsDialog::fillBefore()
{
    before_->addItem(tr("(none)"), 0);
    const auto& notebook = services_.desk.notebook();
    for (const int row : notebook.children(Entity::Photo, print_)) {
        const auto id = notebook.table(Entity::Photo).id(row);
        if (id == now_->id)
            continue;
        before_->addItem(photoLabel(services_.desk, id, false), id);
        before_->setItemData(before_->count() - 1, photoLabel(services_.desk, id), Qt::ToolTipRole);
    }
}

void SignsDialog::buildSignsPage()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    headline_ = wrapped(page);
    headline_->setFont(textFont(font(), TextSize::Title));
    column->addWidget(headline_);
    auto* pictures = new QHBoxLayout;
    column->addLayout(pictures, 1);
    sheet_picture_ = new PictureBox(services_.look.theme(), tr("The sheet, straightened"), page);
    sign_picture_ = new PictureBox(services_.look.theme(), tr("Picture of the chosen sign"), page);
    pictures->addWidget(sheet_picture_, 1);
    pictures->addWidget(sign_picture_, 1);
    table_ = new QTableWidget(0, columns, page);
    table_->setAccessibleName(tr("Signs that are proposed"));
    table_->setHorizontalHeaderLabels(
        { tr("Sign"), tr("Strength"), tr("How strong"), tr("Where and how"), tr("Decided") });
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    styleTable(*table_);
    table_->setWordWrap(true);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    column->addWidget(table_);
    auto* buttons = new QHBoxLayout;
    column->addLayout(buttons);
    accept_ = new QPushButton(tr("&Accept: the sign is there"), page);
    reject_ = new QPushButton(tr("Re&ject: no sign"), page);
    for (auto* button : { accept_, reject_ }) {
        button->setAutoDefault(false);
        button->setVisible(services_.desk.writable());
        buttons->addWidget(button);
    }
    details_ = wrapped(page);
    buttons->addWidget(details_, 1);
    not_found_ = wrapped(page);
    not_found_->setAccessibleName(tr("What was looked for and not found"));
    not_found_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    column->addWidget(not_found_);
    pages_->addTab(page, tr("&2 Signs"));
    connect(table_, &QTableWidget::currentCellChanged, this, [this] { showChosen(); });
    connect(accept_, &QPushButton::clicked, this, [this] { decide(true); });
    connect(reject_, &QPushButton::clicked, this, [this] { decide(false); });
}

void SignsDialog::fillTable()
{
    if (!proposals_)
        return;
    const int before = table_->currentRow();
    table_->setRowCount(int(proposals_->found.size()));
    for (int row = 0; row < table_->rowCount(); ++row) {
        const auto& one = proposals_->found[size_t(row)];
        const auto judged = judgedBefore(services_.desk.notebook(), print_, now_->id, one);
        const QString cells[] = { signWord(one.sign.kind), strengthNumber(one), strengthWords(one), signDetails(one),
            verdictWords(judged.verdict) };
        for (int c = 0; c < columns; ++c) {
            auto* item = new QTableWidgetItem(cells[c]);
            item->setToolTip(cells[c]);
            item->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
            table_->setItem(row, c, item);
        }
    }
    table_->setVisible(table_->rowCount() > 0);
    if (table_->rowCount() > 0)
        table_->setCurrentCell(std::clamp(before, 0, table_->rowCount() - 1), 0);
    fitRows();
    showChosen();
}

/// Rows as high as their words ask for, and the table as high as its rows, up to a third of the window.
void SignsDialog::fitRows()
{
    constexpr int cellMargins = 20, rowRoom = 10;
    const int usual = table_->verticalHeader()->defaultSectionSize();
    int all = table_->horizontalHeader()->sizeHint().height() + 2 * table_->frameWidth();
    for (int row = 0; row < table_->rowCount(); ++row) {
        int height = usual;
        for (int c = 0; c < columns; ++c) {
            const QRect room(0, 0, std::max(20, table_->columnWidth(c) - cellMargins), 0);
            height = std::max(height,
                table_->fontMetrics().boundingRect(room, Qt::TextWordWrap, table_->item(row, c)->text()).height()
                    + rowRoom);
        }
        table_->setRowHeight(row, height);
        all += height;
    }
    table_->setFixedHeight(std::min(all, height() / 3));
}

void SignsDialog::resizeEvent(QResizeEvent* event)
{
    QDialog::resizeEvent(event);
    if (table_ && proposals_)
        QMetaObject::invokeMethod(this, &SignsDialog::fitRows, Qt::QueuedConnection); // the columns have their widths
}

void SignsDialog::fillSentences()
{
    const int n = int(proposals_->found.size());
    headline_->setText(n == 0 ? tr("No sign found.") : tr("Signs proposed: %1. You decide.").arg(n));
    QStringList all;
    for (const auto& looked : proposals_->looked)
        if (!looked.found)
            all << notFoundWords(looked);
    if (now_->region(SheetRole::Even))
        all << tr("Stripes, mottle and a paler centre were looked for in the marked even part only.");
    else if (n > 0)
        all << tr("No even part is marked: the motif itself can look like mottle, stripes or a paler centre.");
    if (earlier_) {
        all << (proposals_->alike
                ? tr("The photo before the rinse was laid onto this one by its details (alike %1 of 1).")
                      .arg(QLocale().toString(*proposals_->alike, 'f', 2))
                : tr("The two photos show too little detail to be laid over one another; the marked corners alone were "
                     "used."));
        if (!proposals_->one_zero)
            all << tr("Bare paper is not marked in both photos: their light may differ, so only what was lost in some "
                      "places more than in others is seen.");
    }
    all << proposals_->notes;
    not_found_->setText(all.join(QLatin1Char('\n')));
    sheet_picture_->setPicture(proposals_->sheet, tr("The sheet, straightened"));
}

void SignsDialog::showChosen()
{
    const int row = chosenRow();
    accept_->setVisible(row >= 0 && services_.desk.writable());
    reject_->setVisible(row >= 0 && services_.desk.writable());
    sign_picture_->setVisible(row >= 0);
    if (row < 0) {
        details_->clear();
        return;
    }
    const auto& one = proposals_->found[size_t(row)];
    const auto judged = judgedBefore(services_.desk.notebook(), print_, now_->id, one);
    sign_picture_->setPicture(one.sign.picture, pictureWords(one.sign.kind));
    sheet_picture_->setMark(
        one.sign.worst ? std::optional(QPointF(one.sign.worst->x, one.sign.worst->y)) : std::nullopt);
    accept_->setEnabled(judged.verdict != Verdict::Accepted);
    reject_->setEnabled(judged.verdict != Verdict::Rejected);
    details_->setText(tr("%1: %2.").arg(signWord(one.sign.kind), verdictWords(judged.verdict)));
}

} // namespace washfast::ui
