// What stands beside and below the photo on the Reading desk.
#include "core/density/reading_rows.h"
#include "ui/common/controls.h"
#include "ui/reading/density_table.h"
#include "ui/reading/opening_bar.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/reference_panel.h"
#include "ui/reading/row_panel.h"
#include "ui/reading/session_references.h"
#include "ui/reading/straight_view.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>

namespace washfast::ui {

namespace {

constexpr int panelWidth = 310, tableHeight = 190, sentenceLines = 4, boxLetters = 14;

QPushButton* plainButton(QWidget* parent, const QString& text)
{
    auto* button = new QPushButton(text, parent);
    button->setAutoDefault(false);
    return button;
}

QScrollArea* scrolled(QWidget* inside, QWidget* parent)
{
    auto* scroll = new QScrollArea(parent);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidget(inside);
    return scroll;
}

} // namespace

ReadingDesk::ReadingDesk(const Services& services, qint64 print, QWidget* parent)
    : QDialog(parent, Qt::Window)
    , services_(services)
    , print_(print)
    , last_(rememberedReferences(services.desk))
{
    setWindowTitle(print ? tr("Reading desk: %1").arg(services.desk.notebook().nameOf({ Entity::Print, print }))
                         : tr("Reading desk"));
    resize(1100, 720);
    auto* rows = new QVBoxLayout(this);
    auto* top = new QHBoxLayout;
    rows->addLayout(top, 1);
    canvas_ = new PhotoCanvas(services.look.theme(), this);
    top->addWidget(canvas_, 3);
    straight_view_ = new StraightView(services.look.theme(), this);
    straight_view_->hide();
    top->addWidget(straight_view_, 2);
    auto* panel = new QWidget(this);
    column_ = new QVBoxLayout(panel);
    column_->setContentsMargins(0, 0, 8, 0);
    buildPhotos();
    buildReferences();
    buildPrints();
    column_->addStretch(1);
    auto* side = new QVBoxLayout;
    top->addLayout(side);
    auto* scroll = scrolled(panel, this);
    scroll->setFixedWidth(panelWidth);
    side->addWidget(scroll, 1);
    buildEntering(*side); // always in sight
    sentences_ = new QLabel(this);
    sentences_->setWordWrap(true);
    sentences_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    sentences_->setAccessibleName(tr("What the measurement says"));
    sentences_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    auto* said = scrolled(sentences_, this);
    said->setFixedHeight(sentenceLines * fontMetrics().lineSpacing() + 2);
    rows->addWidget(said);
    table_ = new DensityTable(this);
    table_->setFixedHeight(tableHeight);
    rows->addWidget(table_);

    connect(opening_, &OpeningBar::opened, this, [this](MarkedPhoto* photo) {
        restoreMarks(*photo);
        if (photo == current())
            showPhoto();
    });
    connect(&measure_, &QFutureWatcherBase::finished, this, &ReadingDesk::takeMeasured);
    connect(canvas_, &PhotoCanvas::marksChanged, this, &ReadingDesk::marksChanged);
    connect(canvas_, &PhotoCanvas::chosenChanged, this, [this] {
        showChosen();
        showStraight();
    });
    connect(table_, &QTableWidget::cellClicked, canvas_, [this](int row) {
        if (const auto* spot = table_->spotAt(row))
            spot->kind == Spot::Kind::Region ? canvas_->choose(int(spot->of)) : canvas_->chooseRow(spot->of);
    });
    connect(&services_.look, &ThemeSource::changed, canvas_, &PhotoCanvas::setTheme);
    connect(&services_.look, &ThemeSource::changed, straight_view_, &StraightView::setTheme);
    connect(&services_.desk, &Desk::changed, this, [this](const QVector<store::Change>& changes) {
        if (std::any_of(changes.begin(), changes.end(), [](const store::Change& change) {
                return change.row.entity == Entity::Card || change.row.entity == Entity::CardPatch;
            }))
            followCards();
    });
    connect(&services_.desk, &Desk::reloaded, this, &ReadingDesk::followCards);
    references_->showReferences(last_, false);
    showPhoto();
}

void ReadingDesk::buildPhotos()
{
    auto* line = new QHBoxLayout;
    column_->addLayout(line);
    photo_ = narrowBox(this, tr("Photo that is shown"), boxLetters);
    line->addWidget(photo_, 1);
    auto* open = plainButton(this, tr("&Open..."));
    open->setAccessibleName(tr("Open photos"));
    connect(open, &QPushButton::clicked, this, &ReadingDesk::choosePhotos);
    line->addWidget(open);
    connect(photo_, &QComboBox::activated, this, &ReadingDesk::showPhoto);
    opening_ = new OpeningBar(this);
    column_->addWidget(opening_);
    auto* form = new QFormLayout;
    column_->addLayout(form);
    role_ = narrowBox(this, tr("What the next region shows"), boxLetters);
    for (int i = 0; i < int(MarkRole::markRoles); ++i)
        role_->addItem(roleLabel(static_cast<MarkRole>(i)));
    form->addRow(tr("&Draw"), role_);
    connect(role_, &QComboBox::currentIndexChanged, canvas_,
        [this](int role) { canvas_->setRole(static_cast<MarkRole>(role)); });
    row_ = new RowPanel(this);
    column_->addWidget(row_);
    connect(row_, &RowPanel::changed, this, [this](int count, bool turned) {
        if (const auto row = canvas_->chosenRow()) {
            current()->rows[*row].count = count;
            current()->rows[*row].turned = turned;
            marksChanged();
        }
    });
}

void ReadingDesk::buildReferences()
{
    references_ = new ReferencePanel(services_.desk, this);
    column_->addWidget(references_);
    if (!services_.desk.writable())
        references_->setNotWritable();
    connect(references_, &ReferencePanel::changed, this, [this] {
        last_ = references_->references();
        auto* photo = current();
        if (!photo)
            return;
        auto before = photo->references;
        before.measured = last_.measured; // says how they are known, not what they are
        const bool same = before == last_ && photo->level == references_->level();
        photo->references = last_;
        photo->level = references_->level();
        if (same)
            return;
        const bool row = std::any_of(photo->rows.begin(), photo->rows.end(),
            [](const MarkedRow& marked) { return marked.kind == MarkedRow::Kind::Patches; });
        if (last_.card && !row) // that is what is to be marked next
            role_->setCurrentIndex(int(MarkRole::PatchRow));
        showChosen();
        marksChanged();
    });
    connect(references_, &ReferencePanel::correctionToggled, this, &ReadingDesk::showCorrection);
    connect(references_, &ReferencePanel::keepCard, this, &ReadingDesk::keepAsCard);
}

void ReadingDesk::buildPrints()
{
    auto* outline = plainButton(this, tr("Outline a &print"));
    column_->addWidget(outline);
    connect(outline, &QPushButton::clicked, this, [this] { canvas_->addOutline(print_); });
    assigned_ = narrowBox(this, tr("Print in the chosen outline"), boxLetters);
    assigned_->addItem(tr("(no print)"), 0);
    const auto& notebook = services_.desk.notebook();
    const auto& prints = notebook.table(Entity::Print);
    for (int row = 0; row < prints.rows(); ++row)
        assigned_->addItem(notebook.nameOf({ Entity::Print, prints.id(row) }), prints.id(row));
    auto* form = new QFormLayout;
    form->addRow(tr("It is prin&t"), assigned_);
    column_->addLayout(form);
    connect(assigned_, &QComboBox::activated, this, &ReadingDesk::assign);
    straight_ = new QCheckBox(tr("Show it straight o&n"), this);
    straight_->setToolTip(tr("The outlined print beside the photo, as it looks from straight above."));
    column_->addWidget(straight_);
    connect(straight_, &QCheckBox::toggled, this, &ReadingDesk::showStraight);
}

void ReadingDesk::buildEntering(QVBoxLayout& side)
{
    auto* form = new QFormLayout;
    side.addLayout(form);
    when_ = narrowBox(this, tr("State of the print in the photo"), boxLetters);
    for (const auto& choice : services_.desk.catalogue().columnField(Entity::Reading, u"reading_when").choices)
        when_->addItem(choice.label, choice.key);
    when_->setCurrentIndex(when_->count() - 1);
    form->addRow(tr("P&hoto shows"), when_);
    channel_ = narrowBox(this, tr("Channel that is entered"), boxLetters);
    for (const auto& [label, channel] : { std::pair(tr("photo red"), density::ReadChannel::Red),
             std::pair(tr("photo green"), density::ReadChannel::Green),
             std::pair(tr("photo blue"), density::ReadChannel::Blue),
             std::pair(tr("photo visual"), density::ReadChannel::Visual) })
        channel_->addItem(label, int(channel));
    form->addRow(tr("&Channel"), channel_);
    connect(when_, &QComboBox::currentIndexChanged, this, [this] {
        if (auto* photo = current())
            photo->when = when_->currentData().toString();
    });
    connect(channel_, &QComboBox::currentIndexChanged, this, [this] {
        if (auto* photo = current())
            photo->channel = channel_->currentData().toInt();
    });
    enter_ = plainButton(this, tr("&Enter readings"));
    enter_->setVisible(services_.desk.writable());
    side.addWidget(enter_);
    connect(enter_, &QPushButton::clicked, this, &ReadingDesk::enter);
}

} // namespace washfast::ui
