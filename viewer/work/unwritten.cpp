#include "grid/problem.h"
#include "viewer/work/edge_list.h"
#include "viewer/work/glass.h"
#include "viewer/work/looks.h"
#include "viewer/work/making.h"
#include "viewer/work/opened.h"
#include "viewer/work/recovery.h"
#include "viewer/work/settings.h"
#include "viewer/work/strength.h"
#include "viewer/work/studio.h"
namespace tidemark::viewer {
using std::filesystem::path;
[[noreturn]] static void unwritten() { throw grid::InternalError("not written yet"); }
const char* look_name(LookKind) { return ""; }
unsigned parts_for(LookKind) { return all_parts; }
std::optional<ReferenceValues> reference_values(const plan::Plan&) { return {}; }
Pixels pixels_of(const Moment&, LookKind, const LookAt&) { return {}; }
Pixels reference_pixels(const plan::Plan&, const ReferenceValues&, LookKind, int, int) { return {}; }
std::optional<UnderGlass> under_glass(const Run&, double, double, double) { return {}; }
std::vector<EdgeLine> edge_lines(const Outcome&) { return {}; }
std::string edges_sentence(const Outcome&) { return {}; }
struct Document::Inside { path file; std::string text; std::shared_ptr<const plan::Plan> plan; std::vector<grid::Problem> problems; };
Document::Document(path, const materials::Presets&) { unwritten(); }
Document::Document(path, std::string, const materials::Presets&) { unwritten(); }
Document::~Document() = default;
Document::Document(Document&&) noexcept = default;
Document& Document::operator=(Document&&) noexcept = default;
const path& Document::file() const { return in_->file; }
const std::string& Document::text() const { return in_->text; }
int Document::revision() const { return 0; }
std::shared_ptr<const plan::Plan> Document::plan() const { return in_->plan; }
const std::vector<grid::Problem>& Document::problems() const { return in_->problems; }
bool Document::changed() const { return false; }
void Document::set(const std::string&, const std::string&, const std::string&) { unwritten(); }
void Document::set_many(const std::string&, const std::vector<std::array<std::string, 3>>&) { unwritten(); }
std::optional<std::string> Document::get(const std::string&, const std::string&) const { return {}; }
void Document::move_act(int, double, const std::vector<ActSpan>&) { unwritten(); }
int Document::add_act(const NewAct&, int) { unwritten(); }
void Document::remove_act(int) { unwritten(); }
void Document::add_mix(const std::string&, const std::vector<std::pair<std::string, double>>&) { unwritten(); }
void Document::add_want(const std::string&, const std::string&, const std::string&) { unwritten(); }
void Document::replace(std::string, const std::string&) { unwritten(); }
bool Document::can_undo() const { return false; }
bool Document::can_redo() const { return false; }
std::string Document::undo_label() const { return {}; }
std::string Document::redo_label() const { return {}; }
void Document::undo() {}
void Document::redo() {}
void Document::save() { unwritten(); }
std::vector<path> Document::save_as(const path&) { unwritten(); }
bool Document::changed_on_disk() const { return false; }
void Document::reload() { unwritten(); }
double draft_cell_m(const plan::Plan&) { return 2e-3; }
struct Studio::Inside {};
Studio::Studio(const materials::Presets&, StudioOptions) {}
Studio::~Studio() = default;
void Studio::open(const path&) { unwritten(); }
void Studio::open(Document) { unwritten(); }
bool Studio::is_open() const { return false; }
Document& Studio::document() { unwritten(); }
const Document& Studio::document() const { unwritten(); }
void Studio::update() {}
std::shared_ptr<Run> Studio::draft() const { return {}; }
std::shared_ptr<Run> Studio::truth() const { return {}; }
std::shared_ptr<Run> Studio::shown(double) const { return {}; }
bool Studio::what_if() const { return false; }
std::shared_ptr<Run> Studio::before(double) const { return {}; }
void Studio::keep() {}
void Studio::drop() {}
void Studio::set_cell(double) {}
double Studio::cell_m() const { return 0.5e-3; }
void Studio::stop() {}
struct Making::Inside { path picture; };
Making::Making(const path&, std::function<void()>) { unwritten(); }
Making::~Making() = default;
const path& Making::picture_file() const { return in_->picture; }
std::shared_ptr<const reference::PictureMasses> Making::found() const { return {}; }
bool Making::busy() const { return false; }
std::string Making::problem() const { return {}; }
int Making::groups() const { return 3; }
void Making::set_groups(int) {}
void Making::set_simplify(double) {}
int Making::mass_at(double, double) const { return 0; }
void Making::merge(int, int) {}
void Making::push(int, int) {}
void Making::split(int, double, double, double, double) {}
void Making::name(int, const std::string&) {}
void Making::brush(int, const std::vector<reference::Point>&, double) {}
void Making::lasso(int, const std::vector<reference::Point>&) {}
bool Making::can_undo() const { return false; }
bool Making::can_redo() const { return false; }
void Making::undo() {}
void Making::redo() {}
Pixels Making::pixels() const { return {}; }
void Making::write_plan(const path&) {}
double Making::writing() const { return -1; }
path Making::written() const { return {}; }
std::vector<DriesTo> dries_to(const plan::Plan&) { return {}; }
Opened what_is(const path&) { return {}; }
Memory::Memory() = default;
Memory::Memory(path config, path state) : config_(config), state_(state) {}
Settings Memory::settings() const { return {}; }
void Memory::save(const Settings&) const {}
std::vector<path> Memory::recent() const { return {}; }
void Memory::add_recent(const path&) const {}
path Memory::recovery_folder() const { return state_; }
Recovery::Recovery(path folder) : folder_(folder) {}
void Recovery::keep_if_due(const Document&) { (void)revision_; }
void Recovery::forget(const Document&) {}
void Recovery::forget(const Recovered&) {}
std::vector<Recovered> Recovery::left_over() const { return {}; }
} // namespace tidemark::viewer
