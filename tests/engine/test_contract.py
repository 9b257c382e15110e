"""The names that the doors promise: every operation's inputs, figures and tables, on calls that bring them all out."""

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.shop.file import sample
from tests.rows import each_row

# id: (inputs, figures, tables, calls that between them show every figure)
CONTRACT = {
    "thread-limits": (
        "size tolerance engagement",
        "pitch lead starts lead_angle included_angle major_basic pitch_basic minor_basic ext_major_max ext_major_min "
        "ext_pitch_max ext_pitch_min ext_minor_max int_minor_min int_minor_max int_pitch_min int_pitch_max "
        "int_major_min allowance thread_depth stress_area",
        "",
        ["size=M12x1"],
    ),
    "identify-thread": ("major pitch tpi side included_angle", "best", "candidates", ["major=9.9 pitch=1.5"]),
    "three-wires": (
        "size tolerance wire reading force",
        "best_wire wire_min wire_max wire over_wires_basic over_wires_max over_wires_min lead_correction "
        "pitch_diameter to_max to_min infeed_to_max infeed_to_middle state",
        "",
        ["size=M10 wire=0.895 reading=10.5"],
    ),
    "screwcutting": (
        "size tolerance slide_angle material first_cut last_cut spring_passes gap slide",
        "depth slide_travel rpm time_to_shoulder rpm_limit",
        "passes",
        ["size=M12x1.5 gap=3"],
    ),
    "change-gears": (
        "size pitch tpi leadscrew wheels wheels_used",
        "lead_cut error_ppm error_per_100 drivers driven thread_dial",
        "trains",
        ["pitch=1.25", "tpi=20"],
    ),
    "thread-fit": (
        "size screw_pitch_diameter nut_pitch_diameter lead_error_ppm engagement flank_error",
        "diametral_clearance axial_play functional_screw functional_nut turns_to_bind state",
        "",
        ["size=M10 screw_pitch_diameter=8.95 nut_pitch_diameter=9.1 lead_error_ppm=500 engagement=10"],
    ),
    "thread-strength": (
        "size property_class nut_material engagement",
        "stress_area proof_load strip_load engagement_needed tightening_torque",
        "",
        ["size=M10 property_class=8.8 engagement=8"],
    ),
    "thread-relief": (
        "size side",
        "relief_width relief_diameter run_out chamfer_diameter blind_overrun",
        "",
        ["size=M10", "size=M10 side=internal"],
    ),
    "tap-drill": (
        "size material percent tap depth hole",
        "drill drill_diameter engagement_percent minor_min minor_max inside_limits drill_depth tip_depth tap_turns "
        "tap_reach torque",
        "choices taps",
        ["size=M6 depth=12 hole=blind"],
    ),
    "drill-size": ("size", "diameter inch", "nearest", ["size=#7"]),
    "clearance-hole": ("size fit standard", "diameter drill", "", ["size=M6"]),
    "hole-plan": (
        "diameter depth material hole pilot machine finish start existing point flute",
        "setting turns reading drill_point travel rpm feed pecks torque thrust reach bore_to",
        "steps peck_depths",
        ["diameter=8 depth=40", "diameter=50 depth=40"],
    ),
    "countersink": ("hole diameter angle screw head standard", "setting depth dial", "", ["hole=6.6 diameter=12"]),
    "counterbore": ("size", "bore depth head_diameter", "", ["size=M6"]),
    "ream": (
        "diameter tolerance material kind leave",
        "pre_drill allowance rpm limit_low limit_high",
        "",
        ["diameter=8"],
    ),
    "hole-circle": (
        "holes diameter start_angle centre_x centre_y x_from y_from",
        "chord angle",
        "holes",
        ["holes=6 diameter=50"],
    ),
    "divide": (
        "divisions angle ratio plates gears",
        "method turns circle holes sector_holes error_seconds drivers driven idlers same_direction second_circle "
        "second_holes",
        "positions other_ways",
        ["divisions=30", "divisions=127", "divisions=77 gears=24", "divisions=63 gears=24 ratio=40", "angle=7"],
    ),
    "rotary-table": ("divisions angle ratio start_angle", "turns", "positions", ["divisions=7"]),
    "scale-lines": (
        "size lead per_line diameter long_every middle_every long_length short_length line_width cutter_angle "
        "feed_dial",
        "divisions angle spacing line_depth line_setting figure_height number_width figure_foot figure_step",
        "lines numbers dry_run order",
        ["lead=1.5 per_line=0.05 diameter=24 line_width=0.2"],
    ),
    "straight-scale": (
        "spacing lines value long_every middle_every long_length short_length line_width cutter_angle move_dial "
        "feed_dial",
        "divisions scale_length line_depth line_setting error figure_height number_width figure_foot figure_step",
        "lines numbers dry_run order",
        ["spacing=1 lines=61"],
    ),
    "scribe": (
        "line_width length cutter_angle tip_flat material deepest again depth_dial feed_dial",
        "line_depth width_set width_a_line strokes stroke_infeed stroke_force",
        "strokes",
        ["line_width=0.3 material=brass"],
    ),
    "hand-dial": (
        "distance per_turn divisions from_reading direction backlash",
        "turns reading remainder error",
        "",
        ["distance=17.35"],
    ),
    "flats": (
        "sides across_flats diameter",
        "across_flats across_corners cut_depth",
        "positions",
        ["sides=6 across_flats=13"],
    ),
    "vernier": ("division parts", "vernier_length reads_to", "", ["division=1 parts=10"]),
    "knurl-blank": (
        "near pitch tpi diametral_pitch form method material",
        "teeth blank_diameter finished_diameter growth mismatch",
        "choices",
        ["near=18 pitch=0.8"],
    ),
    "knurl-passes": ("diameter width pitch material method", "rpm feed infeed", "passes", ["diameter=18 width=10"]),
    "turning-speed": (
        "diameter material tool cut feed",
        "surface_speed rpm ideal_rpm feed force power share_of_motor",
        "",
        ["diameter=20 cut=0.5"],
    ),
    "overhang": (
        "diameter length material support force bore",
        "ratio deflection taper_error longest",
        "",
        ["diameter=10 length=40"],
    ),
    "bar-plan": (
        "parts length blade facing grip end_waste drill thread",
        "bar_length drill_depth",
        "cuts",
        ["parts=3 length=12 drill=10.5 thread=M12x1.5"],
    ),
    "part-off": ("diameter bore material blade stick_out", "rpm feed force power blade_reach", "", ["diameter=20"]),
    "slot": (
        "width depth length diameter material cutter step",
        "rpm feed wall_left cutter_deflection",
        "passes",
        ["width=2 depth=2 length=8 diameter=8"],
    ),
    "key": (
        "diameter form standard number",
        "width height shaft_depth hub_depth shaft_over_keyway hub_over_keyway edge_drop shaft_width hub_width "
        "key_diameter cutter_down key_above",
        "keys",
        ["diameter=12", "diameter=20 form=woodruff", "diameter=1in standard=asme"],
    ),
    "fit": (
        "diameter fit",
        "hole_max hole_min shaft_max shaft_min clearance_max clearance_min kind",
        "",
        ["diameter=12 fit=H7/g6"],
    ),
    "ball-seat": ("ball hole stand_out", "depth contact_angle hold", "", ["ball=4 hole=4 stand_out=1.2"]),
    "solder": ("alloy part temper", "liquidus softens instead", "", ["alloy=63/37 temper=150 part=ball"]),
    "retain": ("diameter gap load length", "gap_low gap_high", "", ["diameter=10"]),
}


def test_every_operation_has_its_promise():
    """Those of the first version stand here together; a later operation's promise stands in its own test."""
    assert set(CONTRACT) <= {entry.id for entry in CATALOG}


@each_row("operation_id", CONTRACT)
def test_inputs_figures_and_tables_have_the_promised_names(operation_id):
    inputs, figures, tables, calls = CONTRACT[operation_id]
    assert set(inputs.split()) <= set(asks(load(operation_id).inputs))
    seen, seen_tables = set(), set()
    for call in calls:
        answer = run(operation_id, dict(word.split("=", 1) for word in call.split()), sample("metric")).answer
        seen |= {name for figure in answer.figures for name in (figure.name, figure.was)}
        seen_tables |= {table.name for table in answer.tables}
    assert set(figures.split()) <= seen, sorted(set(figures.split()) - seen)
    assert set(tables.split()) <= seen_tables
