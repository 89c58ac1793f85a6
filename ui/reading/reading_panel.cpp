// What stands beside and below the photo on the Reading desk.
#include "core/density/reading_rows.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QHeaderView>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QScrollArea>
#include <QSettings>
#include <QTableWidget>

namespace washfast::ui {

namespace {

enum Column { Name, OfPrint, Red, Green, Blue, Visual, LabColour, Clipped, columns };

QString densityText(const density::ChannelReading& reading)
{
    if (!reading.density)
        return QString(QChar(0x2013));
    const QLocale locale;
    const auto number = locale.toString(*reading.density, 'f', 2);
    if (reading.at_least)
        return ReadingDesk::tr("at least %1").arg(number);
    return reading.standard_error
        ? QStringLiteral("%1 %2 %3").arg(number).arg(QChar(0xB1)).arg(locale.toString(*reading.standard_error, 'f', 3))
        : number;
}

QDoubleSpinBox* densityBox(QWidget* parent, const QString& name, const QString& key, double start)
{
    auto* box = new QDoubleSpinBox(parent);
    box->setRange(-0.05, 3);
    box->setDecimals(3);
    box->setSingleStep(0.01);
    box->setAccessibleName(name);
    box->setValue(QSettings().value(key, start).toDouble());
    return box;
}

QComboBox* namedBox(QWidget* parent, const QString& name)
{
    auto* box = new QComboBox(parent);
    box->setAccessibleName(name);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(14);
    return box;
}

} // namespace

ReadingDesk::ReadingDesk(const Services& services, qint64 print, QWidget* parent)
    : QDialog(parent, Qt::Window)
    , services_(services)
    , print_(print)
{
    setWindowTitle(print ? tr("Reading desk: %1").arg(services.desk.notebook().nameOf({ Entity::Print, print }))
                         : tr("Reading desk"));
    resize(1100, 720);
    auto* rows = new QVBoxLayout(this);
    auto* top = new QHBoxLayout;
    rows->addLayout(top, 1);
    canvas_ = new PhotoCanvas(services.look.theme(), this);
    top->addWidget(canvas_, 1);
    auto* scroll = new QScrollArea(this);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFixedWidth(310);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* panel = new QWidget(scroll);
    auto* column = new QVBoxLayout(panel);
    buildPanel(*column);
    scroll->setWidget(panel);
    top->addWidget(scroll);
    sentences_ = new QLabel(this);
    sentences_->setWordWrap(true);
    sentences_->setAccessibleName(tr("What the measurement says"));
    sentences_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    rows->addWidget(sentences_);
    table_ = new QTableWidget(0, columns, this);
    table_->setAccessibleName(tr("Densities of the regions"));
    table_->setHorizontalHeaderLabels({ tr("Region"), tr("Print"), tr("Red density"), tr("Green density"),
        tr("Blue density"), tr("Visual density"), tr("L*  a*  b*"), tr("Clipped") });
    for (int c = Red; c < columns; ++c)
        table_->horizontalHeaderItem(c)->setTextAlignment(figureAlignment);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setFixedHeight(180);
    styleTable(*table_);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    rows->addWidget(table_);

    connect(&open_, &QFutureWatcherBase::finished, this, &ReadingDesk::takeOpened);
    connect(&measure_, &QFutureWatcherBase::finished, this, &ReadingDesk::takeMeasured);
    connect(canvas_, &PhotoCanvas::marksChanged, this, &ReadingDesk::marksChanged);
    connect(canvas_, &PhotoCanvas::chosenChanged, this, [this](int thing) {
        if (thing < table_->rowCount())
            thing < 0 ? table_->clearSelection() : table_->selectRow(thing);
        fillPrints();
    });
    connect(table_, &QTableWidget::cellClicked, canvas_, [this](int row) { canvas_->choose(row); });
    connect(&services_.look, &ThemeSource::changed, canvas_, &PhotoCanvas::setTheme);
    showPhoto();
}

void ReadingDesk::buildPanel(QVBoxLayout& column)
{
    buildPhotos(column);
    buildReferences(column);
    buildPrints(column);
    buildEntering(column);
    column.addStretch(1);
}

void ReadingDesk::buildPhotos(QVBoxLayout& column)
{
    auto* open = new QPushButton(tr("&Open photos..."), this);
    open->setAutoDefault(false);
    connect(open, &QPushButton::clicked, this, &ReadingDesk::choosePhotos);
    column.addWidget(open);
    photo_ = namedBox(this, tr("Photo that is shown"));
    column.addWidget(photo_);
    connect(photo_, &QComboBox::activated, this, &ReadingDesk::showPhoto);
    progress_ = new QProgressBar(this);
    progress_->setAccessibleName(tr("Opening photos"));
    progress_->hide();
    column.addWidget(progress_);
    stop_ = new QPushButton(tr("Stop"), this);
    stop_->setAccessibleName(tr("Stop opening photos"));
    stop_->setAutoDefault(false);
    stop_->hide();
    connect(stop_, &QPushButton::clicked, this, &ReadingDesk::stop);
    column.addWidget(stop_);
    auto* form = new QFormLayout;
    column.addLayout(form);
    role_ = namedBox(this, tr("What the next region shows"));
    for (int i = 0; i < int(MarkRole::markRoles); ++i)
        role_->addItem(roleLabel(static_cast<MarkRole>(i)));
    form->addRow(tr("&Draw"), role_);
    connect(role_, &QComboBox::currentIndexChanged, canvas_,
        [this](int role) { canvas_->setRole(static_cast<MarkRole>(role)); });
}

void ReadingDesk::buildReferences(QVBoxLayout& column)
{
    const CardDensities start;
    auto* form = new QFormLayout;
    column.addLayout(form);
    white_ = densityBox(this, tr("Density of the white card"), QStringLiteral("reading/white_density"), start.white);
    grey_ = densityBox(this, tr("Density of the grey card"), QStringLiteral("reading/grey_density"), start.grey);
    form->addRow(tr("&White card, density"), white_);
    form->addRow(tr("&Grey card, density"), grey_);
    for (auto* box : { white_, grey_ })
        connect(box, &QDoubleSpinBox::valueChanged, this, &ReadingDesk::marksChanged);
    cards_measured_ = new QCheckBox(tr("&Measured, for these very cards"), this);
    cards_measured_->setToolTip(
        tr("Without this the two densities are an assumption, and so is whatever is read against them."));
    cards_measured_->setChecked(QSettings().value(QStringLiteral("reading/cards_measured"), false).toBool());
    column.addWidget(cards_measured_);
    // Another number is another card until the person says so.
    for (auto* box : { white_, grey_ })
        connect(box, &QDoubleSpinBox::valueChanged, cards_measured_, [this] { cards_measured_->setChecked(false); });
    level_ = new QCheckBox(tr("Even out the &light by the paper"), this);
    correction_ = new QCheckBox(tr("&Show what was evened out"), this);
    column.addWidget(level_);
    column.addWidget(correction_);
    connect(level_, &QCheckBox::toggled, this, &ReadingDesk::marksChanged);
    connect(correction_, &QCheckBox::toggled, this, &ReadingDesk::showCorrection);
}

void ReadingDesk::buildPrints(QVBoxLayout& column)
{
    auto* outline = new QPushButton(tr("Outline a &print"), this);
    outline->setAutoDefault(false);
    column.addWidget(outline);
    connect(outline, &QPushButton::clicked, this, [this] { canvas_->addOutline(print_); });
    assigned_ = namedBox(this, tr("Print in the chosen outline"));
    assigned_->addItem(tr("(no print)"), 0);
    const auto& notebook = services_.desk.notebook();
    const auto& prints = notebook.table(Entity::Print);
    for (int row = 0; row < prints.rows(); ++row)
        assigned_->addItem(notebook.nameOf({ Entity::Print, prints.id(row) }), prints.id(row));
    auto* form = new QFormLayout;
    form->addRow(tr("It is prin&t"), assigned_);
    column.addLayout(form);
    connect(assigned_, &QComboBox::activated, this, &ReadingDesk::assign);
}

void ReadingDesk::buildEntering(QVBoxLayout& column)
{
    auto* form = new QFormLayout;
    column.addLayout(form);
    when_ = namedBox(this, tr("State of the print in the photo"));
    for (const auto& choice : services_.desk.catalogue().columnField(Entity::Reading, u"reading_when").choices)
        when_->addItem(choice.label, choice.key);
    when_->setCurrentIndex(when_->count() - 1);
    form->addRow(tr("Photo sho&ws"), when_);
    channel_ = namedBox(this, tr("Channel that is entered"));
    for (const auto& [label, channel] : { std::pair(tr("photo red"), density::ReadChannel::Red),
             std::pair(tr("photo green"), density::ReadChannel::Green),
             std::pair(tr("photo blue"), density::ReadChannel::Blue),
             std::pair(tr("photo visual"), density::ReadChannel::Visual) })
        channel_->addItem(label, int(channel));
    form->addRow(tr("&Channel"), channel_);
    enter_ = new QPushButton(tr("&Enter readings"), this);
    enter_->setAutoDefault(false);
    enter_->setVisible(services_.desk.writable());
    column.addWidget(enter_);
    connect(enter_, &QPushButton::clicked, this, &ReadingDesk::enter);
}

void ReadingDesk::fillPrints()
{
    const auto* photo = current();
    const int corner = photo ? canvas_->chosen() - int(photo->marks.size()) : -1;
    const bool outline = photo && corner >= 0 && corner < 4 * int(photo->outlines.size());
    assigned_->setEnabled(outline);
    if (outline)
        assigned_->setCurrentIndex(std::max(0, assigned_->findData(photo->outlines[size_t(corner / 4)].print)));
}

void ReadingDesk::fillTable()
{
    const auto* photo = current();
    table_->setRowCount(photo ? int(photo->marks.size()) : 0);
    const auto& notebook = services_.desk.notebook();
    for (int row = 0; row < table_->rowCount(); ++row) {
        const auto i = size_t(row);
        QStringList cells;
        for (int c = 0; c < columns; ++c)
            cells << QString();
        cells[Name] = markName(*photo, i);
        if (const auto print = printOf(*photo, i, print_); print && !whereKey(photo->marks[i].role).isEmpty())
            cells[OfPrint] = notebook.nameOf({ Entity::Print, print });
        if (photo->measured && i < photo->measured->regions.size()) {
            const auto& region = photo->measured->regions[i];
            cells[Red] = densityText(region.red);
            cells[Green] = densityText(region.green);
            cells[Blue] = densityText(region.blue);
            cells[Visual] = densityText(region.visual);
            const QLocale locale;
            if (region.lab)
                cells[LabColour]
                    = QStringLiteral("%1  %2  %3")
                          .arg(locale.toString(region.lab->l, 'f', 1), locale.toString(region.lab->a, 'f', 1),
                              locale.toString(region.lab->b, 'f', 1));
            cells[Clipped] = tr("%1 %").arg(locale.toString(100 * region.clipped_share, 'f', 1));
        }
        for (int c = 0; c < columns; ++c) {
            auto* item = new QTableWidgetItem(cells[c]);
            if (c >= Red)
                item->setTextAlignment(figureAlignment);
            table_->setItem(row, c, item);
        }
    }
    enter_->setEnabled(photo && photo->measured);
}

QString ReadingDesk::says() const
{
    return sentences_->text();
}

void ReadingDesk::fillSentences()
{
    const auto* photo = current();
    QStringList all;
    if (photo && !photo->trouble.isEmpty())
        all << photo->trouble;
    else if (photo && !photo->refusal.isEmpty())
        all << photo->refusal;
    else if (photo && photo->measured) {
        for (const auto& reference : photo->measured->references)
            if (reference.residual)
                all << tr("%1: off the fitted response by %2")
                           .arg(reference.name, QLocale().toString(*reference.residual, 'f', 3));
        all = all.isEmpty() ? all : QStringList { all.join(QStringLiteral("; ")) + QLatin1Char('.') };
        all << photo->measured->warnings;
    } else if (photo && photo->photo)
        all << tr("Drag over the white and the grey card, then over what is to be measured.");
    sentences_->setText(all.join(QLatin1Char('\n')));
}

void ReadingDesk::showCorrection()
{
    const auto* photo = current();
    const bool there = photo && photo->measured && photo->measured->lighting;
    correction_->setEnabled(there);
    canvas_->setOverlay(there && correction_->isChecked() ? photo->measured->lighting->picture() : QImage());
}

} // namespace washfast::ui
