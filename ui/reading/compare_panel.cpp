// The two pages of the dialog that compares colours: marking both photos, and the map.
#include "ui/common/controls.h"
#include "ui/reading/compare_dialog.h"
#include "ui/reading/compare_map.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_picture.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QTabWidget>

namespace washfast::ui {

namespace {

constexpr int resultWidth = 300, boxLetters = 16;

} // namespace

CompareDialog::CompareDialog(
    const Services& services, const QVector<qint64>& prints, qint64 first, qint64 second, QWidget* parent)
    : QDialog(parent, Qt::Window)
    , services_(services)
{
    setWindowTitle(tr("Compare colours"));
    resize(1060, 720);
    auto* rows = new QVBoxLayout(this);
    pages_ = new QTabWidget(this);
    pages_->setDocumentMode(true);
    rows->addWidget(pages_, 1);
    work_ = new WorkBar(this);
    opener_ = new SheetOpener(services.desk, *work_, this);
    buildMarkPage();
    buildResultPage();
    pages_->setTabEnabled(1, false);
    rows->addWidget(work_);
    fillPhotos(prints);
    connect(opener_, &SheetOpener::opened, this, &CompareDialog::showSheets);
    connect(&watcher_, &QFutureWatcherBase::finished, this, &CompareDialog::take);
    connect(&services_.look, &ThemeSource::changed, this, [this](const Theme& theme) {
        for (const int which : { 0, 1 }) {
            canvas_[which]->setTheme(theme);
            picture_[which]->setTheme(theme);
        }
        map_->setTheme(theme);
    });
    const qint64 wanted[] = { first, second };
    for (const int which : { 0, 1 }) {
        photo_[which]->setCurrentIndex(std::max(0, photo_[which]->findData(wanted[which])));
        choosePhoto(which);
    }
    showSheets();
}

void CompareDialog::fillPhotos(const QVector<qint64>& prints)
{
    const auto& notebook = services_.desk.notebook();
    const auto& photos = notebook.table(Entity::Photo);
    for (auto* box : photo_)
        box->addItem(tr("(choose a photo)"), 0);
    const auto add = [&](bool own) {
        for (int row = 0; row < photos.rows(); ++row) {
            if (prints.contains(photos.owner(row)) != own)
                continue;
            for (auto* box : photo_)
                box->addItem(photoLabel(services_.desk, photos.id(row)), photos.id(row));
        }
    };
    add(true);
    add(false);
}

void CompareDialog::buildMarkPage()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    auto* pair = new QHBoxLayout;
    column->addLayout(pair, 1);
    for (const int which : { 0, 1 }) {
        auto* side = new QVBoxLayout;
        pair->addLayout(side, 1);
        auto* label = new QLabel(which == 0 ? tr("&First photo") : tr("&Second photo"), page);
        side->addWidget(label);
        photo_[which] = narrowBox(page, which == 0 ? tr("First photo") : tr("Second photo"), boxLetters);
        label->setBuddy(photo_[which]);
        side->addWidget(photo_[which]);
        canvas_[which] = new SheetCanvas(services_.look.theme(), page);
        canvas_[which]->setAccessibleName(which == 0 ? tr("First photo with the corners of the sheet")
                                                     : tr("Second photo with the corners of the sheet"));
        side->addWidget(canvas_[which], 1);
        auto* turn = new QPushButton(
            which == 0 ? tr("Turn the first &by a quarter") : tr("Turn the second b&y a quarter"), page);
        turn->setAutoDefault(false);
        turn->setToolTip(tr("The filled corner is the sheet's own top left."));
        side->addWidget(turn, 0, Qt::AlignLeft);
        connect(photo_[which], &QComboBox::currentIndexChanged, this, [this, which] { choosePhoto(which); });
        connect(canvas_[which], &SheetCanvas::marksChanged, this, &CompareDialog::marksChanged);
        connect(turn, &QPushButton::clicked, this, [this, which] {
            if (sheets_[which] && sheets_[which]->photo) {
                sheets_[which]->turn();
                canvas_[which]->update();
                marksChanged();
            }
        });
    }
    buildChoices(*column);
    pages_->addTab(page, tr("&1 Mark the sheets"));
}

void CompareDialog::buildChoices(QVBoxLayout& column)
{
    auto* row = new QHBoxLayout;
    column.addLayout(row);
    auto* left = new QFormLayout;
    auto* right = new QFormLayout;
    row->addLayout(left);
    row->addLayout(right);
    role_ = narrowBox(this, tr("What the next region shows"), boxLetters);
    for (const auto role :
        { SheetRole::Paper, SheetRole::WhiteCard, SheetRole::GreyCard, SheetRole::Deepest, SheetRole::CommonSpot })
        role_->addItem(sheetRoleLabel(role), int(role));
    left->addRow(tr("&Draw"), role_);
    laid_by_ = narrowBox(this, tr("How the two are laid over one another"), boxLetters);
    laid_by_->addItem(tr("by their details"), int(density::LaidBy::Details));
    laid_by_->addItem(tr("by the common spot"), int(density::LaidBy::Spot));
    laid_by_->addItem(tr("corner onto corner"), int(density::LaidBy::Outline));
    left->addRow(tr("&Lay over"), laid_by_);
    const auto card = [&](const QString& label, const QString& name, const QString& key, double start) {
        auto* box = new QDoubleSpinBox(this);
        box->setRange(-0.05, 3);
        box->setDecimals(3);
        box->setSingleStep(0.01);
        box->setAccessibleName(name);
        box->setValue(QSettings().value(key, start).toDouble());
        right->addRow(label, box);
        return box;
    };
    const density::ColourQuestion start;
    white_ = card(tr("&White card, density"), tr("Density of the white card"), QStringLiteral("reading/white_density"),
        start.white_density);
    grey_ = card(tr("&Grey card, density"), tr("Density of the grey card"), QStringLiteral("reading/grey_density"),
        start.grey_density);
    hint_ = wrapped(this);
    hint_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    row->addWidget(hint_, 1);
    compare_ = new QPushButton(tr("&Compare"), this);
    compare_->setDefault(true);
    row->addWidget(compare_, 0, Qt::AlignBottom);
    connect(role_, &QComboBox::currentIndexChanged, this, [this] {
        for (auto* canvas : canvas_)
            canvas->setRole(static_cast<SheetRole>(role_->currentData().toInt()));
    });
    connect(compare_, &QPushButton::clicked, this, &CompareDialog::compare);
}

void CompareDialog::buildResultPage()
{
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    headline_ = wrapped(page);
    auto bold = headline_->font();
    bold.setBold(true);
    headline_->setFont(bold);
    column->addWidget(headline_);
    auto* row = new QHBoxLayout;
    column->addLayout(row, 1);
    map_ = new CompareMap(services_.look.theme(), page);
    row->addWidget(map_, 1);
    auto* pictures = new QVBoxLayout;
    row->addLayout(pictures);
    for (const int which : { 0, 1 }) {
        picture_[which] = new PictureBox(services_.look.theme(),
            which == 0 ? tr("First sheet, straightened") : tr("Second sheet, laid onto the first"), page);
        picture_[which]->setFixedWidth(resultWidth);
        pictures->addWidget(picture_[which], 1);
    }
    place_ = new QLabel(tr("Point at a place of the map, or walk through it with the arrow keys."), page);
    column->addWidget(place_);
    lines_ = wrapped(page);
    lines_->setAccessibleName(tr("What the comparison says"));
    lines_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    column->addWidget(lines_);
    pages_->addTab(page, tr("&2 Difference"));
    connect(map_, &CompareMap::read, place_, &QLabel::setText);
}

} // namespace washfast::ui
