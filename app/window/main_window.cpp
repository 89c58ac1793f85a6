#include "app/window/main_window.h"

#include "app/window/wiring.h"

#include <QActionGroup>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QMenu>
#include <QMenuBar>
#include <QMimeData>
#include <QStackedWidget>
#include <QStatusBar>
#include <QVBoxLayout>

namespace washfast {

namespace {
constexpr int messageMs = 8000;
constexpr int listWidth = 140;
} // namespace

MainWindow::MainWindow(const ui::Services& services, std::vector<ViewEntry> entries, QWidget* parent)
    : QMainWindow(parent)
    , services_(services)
    , entries_(std::move(entries))
    , views_(entries_.size(), nullptr)
{
    auto& desk = services_.desk;
    setWindowTitle(tr("%1 - Washfast").arg(QFileInfo(desk.file().path()).completeBaseName()));
    auto* page = new QWidget(this);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    banner_ = new QLabel(page);
    banner_->setWordWrap(true);
    banner_->setContentsMargins(12, 8, 12, 8);
    column->addWidget(banner_);
    auto* row = new QHBoxLayout;
    row->setSpacing(0);
    column->addLayout(row, 1);

    list_ = new QListWidget(page);
    list_->setAccessibleName(tr("Views"));
    list_->setFixedWidth(listWidth);
    list_->setFrameShape(QFrame::NoFrame);
    list_->setFont(ui::textFont(font(), ui::TextSize::Body));
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setStyleSheet(QStringLiteral("QListWidget { padding: 6px 0 6px 10px; }"));
    for (size_t i = 0; i < entries_.size(); ++i) {
        auto* item = new QListWidgetItem(entries_[i].title, list_);
        item->setToolTip(tr("%1 (Ctrl+%2)").arg(entries_[i].hint).arg(i + 1));
        item->setSizeHint({ 0, ui::comfortableRowHeight(list_->fontMetrics()) + 10 });
    }
    row->addWidget(list_);
    stack_ = new QStackedWidget(page);
    row->addWidget(stack_, 1);
    setCentralWidget(page);
    setAcceptDrops(true);
    statusBar()->setSizeGripEnabled(false);
    buildMenus();

    connect(list_, &QListWidget::currentRowChanged, this, &MainWindow::go);
    connect(&desk, &ui::Desk::trouble, this, &MainWindow::tell);
    connect(&desk, &ui::Desk::changed, this, &MainWindow::updateUndo);
    connect(&desk, &ui::Desk::accessChanged, this, &MainWindow::showStanding);
    connect(&desk, &ui::Desk::reloaded, this, &MainWindow::updateUndo);
    connect(&desk, &ui::Desk::standingChanged, this, &MainWindow::showStanding);
    const auto colour = [this](const ui::Theme& theme) {
        auto colours = banner_->palette();
        colours.setColor(QPalette::Window, theme.rust);
        colours.setColor(QPalette::WindowText, ui::textOn(theme.rust, theme));
        banner_->setPalette(colours);
        banner_->setAutoFillBackground(true);
    };
    colour(services_.look.theme());
    connect(&services_.look, &ui::ThemeSource::changed, this, colour);
    showStanding();
    resize(1280, 820);
    list_->setCurrentRow(0);
}

int MainWindow::current() const
{
    return list_->currentRow();
}

int MainWindow::indexOf(const QString& title) const
{
    for (size_t i = 0; i < entries_.size(); ++i)
        if (entries_[i].title == title)
            return int(i);
    return -1;
}

ui::View* MainWindow::go(int index)
{
    if (index < 0 || index >= count())
        return nullptr;
    auto*& view = views_[size_t(index)];
    if (!view) {
        view = entries_[size_t(index)].make(services_);
        stack_->addWidget(view);
        connect(view, &ui::View::say, this, [this](const QString& text) { statusBar()->showMessage(text, messageMs); });
        wireView(*this, *view);
    }
    if (list_->currentRow() != index) {
        list_->setCurrentRow(index); // comes back here
        return view;
    }
    stack_->setCurrentWidget(view);
    view->arrive();
    return view;
}

void MainWindow::buildMenus()
{
    buildFileMenu();
    auto* edit = menuBar()->addMenu(tr("&Edit"));
    undo_ = edit->addAction(tr("Undo"), QKeySequence::Undo, this, [this] {
        if (const auto label = services_.desk.undoLabel(); services_.desk.undo())
            statusBar()->showMessage(tr("Undone: %1.").arg(label), messageMs);
    });
    redo_ = edit->addAction(tr("Redo"), QKeySequence::Redo, this, [this] {
        if (const auto label = services_.desk.redoLabel(); services_.desk.redo())
            statusBar()->showMessage(tr("Redone: %1.").arg(label), messageMs);
    });
    redo_->setShortcuts({ QKeySequence(Qt::CTRL | Qt::Key_Y), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z) });
    connect(edit, &QMenu::aboutToShow, this, &MainWindow::updateUndo);

    auto* view = menuBar()->addMenu(tr("&View"));
    for (int i = 0; i < count(); ++i)
        view->addAction(
            entries_[size_t(i)].title, QKeySequence(Qt::CTRL | Qt::Key(Qt::Key_1 + i)), this, [this, i] { go(i); });
    view->addSeparator();
    auto* modes = new QActionGroup(this);
    const std::pair<QString, ui::ThemeMode> looks[] = { { tr("&Light"), ui::ThemeMode::Light },
        { tr("&Dark, for the dim room"), ui::ThemeMode::Dark }, { tr("As the &system"), ui::ThemeMode::FollowSystem } };
    for (const auto& [text, mode] : looks) {
        auto* action = view->addAction(text, this, [this, mode = mode] { services_.look.setMode(mode); });
        action->setCheckable(true);
        action->setChecked(services_.look.mode() == mode);
        modes->addAction(action);
    }
    buildHelpMenu();
}

void MainWindow::buildFileMenu()
{
    auto* file = menuBar()->addMenu(tr("&File"));
    file->addAction(tr("&New notebook..."), this, [this] { openOther(true); });
    file->addAction(tr("&Open notebook..."), QKeySequence::Open, this, [this] { openOther(false); });
    file->addAction(tr("&Copy notebook to..."), this, &MainWindow::copyNotebook);
    file->addSeparator();
    file->addAction(tr("&Import a table..."), this, &MainWindow::importRequested);
    bring_in_ = file->addAction(tr("&Bring in another notebook..."), this, &MainWindow::bringInRequested);
    file->addSeparator();
    file->addAction(tr("Check t&his notebook"), this, &MainWindow::checkRequested);
    file->addSeparator();
    file->addAction(tr("&Quit"), QKeySequence::Quit, this, &QWidget::close);
}

void MainWindow::buildHelpMenu()
{
    auto* help = menuBar()->addMenu(tr("&Help"));
    help->addAction(tr("&Cautions"), this, [this] { services_.dialogs.message(this, tr("Cautions"), cautionText()); });
    help->addAction(
        tr("&About Washfast"), this, [this] { services_.dialogs.message(this, tr("About Washfast"), aboutText()); });
}

void MainWindow::updateUndo()
{
    const auto name = [](const QString& verb, const QString& label) {
        return label.isEmpty() ? verb : verb + QStringLiteral(": ") + label;
    };
    const auto undo = services_.desk.undoLabel();
    const auto redo = services_.desk.redoLabel();
    undo_->setText(name(tr("&Undo"), undo));
    undo_->setEnabled(!undo.isEmpty() && services_.desk.writable());
    redo_->setText(name(tr("&Redo"), redo));
    redo_->setEnabled(!redo.isEmpty() && services_.desk.writable());
}

void MainWindow::showStanding()
{
    banner_->setText(standingSentence(services_.desk.file()));
    banner_->setVisible(!banner_->text().isEmpty());
    bring_in_->setEnabled(services_.desk.writable());
    updateUndo();
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    const bool known = services_.desk.file().loss().has_value();
    services_.desk.lookForChanges(); // the last moment to say that the file is gone, and where everything is
    if (const auto& loss = services_.desk.file().loss(); loss && !known)
        services_.dialogs.error(this, tr("The notebook's file is gone"), loss->error.says, loss->error.where);
    QMainWindow::closeEvent(event);
}

void MainWindow::tell(const Error& error)
{
    services_.dialogs.error(this, tr("This was not saved"), error.says, error.where);
}

void MainWindow::openOther(bool fresh)
{
    const QStringList filters { tr("Notebooks (*.washfast)"), tr("All files (*)") };
    const auto folder = QFileInfo(services_.desk.file().path()).absolutePath();
    const auto path = fresh ? services_.dialogs.saveFile(this, tr("New notebook"),
                          folder + QLatin1Char('/') + tr("notebook") + QStringLiteral(".washfast"), filters)
                            : services_.dialogs.openFile(this, tr("Open notebook"), folder, filters);
    if (path)
        Q_EMIT openRequested(*path);
}

void MainWindow::copyNotebook()
{
    const auto path = services_.dialogs.saveFile(this, tr("Copy notebook to"),
        QFileInfo(services_.desk.file().path()).absolutePath(), { tr("Notebooks (*.washfast)") });
    if (!path)
        return;
    if (const auto done = services_.desk.file().copyTo(*path); done)
        statusBar()->showMessage(tr("Copied to %1").arg(*path), messageMs);
    else
        services_.dialogs.error(this, tr("The copy was not made"), done.error().says, *path);
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event)
{
    for (const auto& url : event->mimeData()->urls())
        if (url.toLocalFile().endsWith(QLatin1String(".washfast")))
            event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event)
{
    for (const auto& url : event->mimeData()->urls())
        if (const auto path = url.toLocalFile(); path.endsWith(QLatin1String(".washfast"))) {
            Q_EMIT openRequested(path);
            return;
        }
}

} // namespace washfast
