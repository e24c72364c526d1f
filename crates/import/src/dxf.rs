//! What is drawn in a DXF file?

use geometry::{Circle, Point2, Segment};
use units::{Length, math};

use crate::tags::{Tag, shown, tags};
use crate::{ImportFault, JOIN, SEGMENTS};

/// What a file holds, not yet measured.
pub(crate) struct Drawing {
    /// The number of its unit, where it states one.
    pub(crate) unit: Option<i64>,
    figures: Vec<Figure>,
}

/// One thing drawn, in the drawing's numbers.
struct Figure {
    shape: Figured,
    /// Drawn on the back of the plane, so that x runs to the left.
    turned_over: bool,
}

enum Figured {
    Line([[f64; 2]; 2]),
    Circle {
        center: [f64; 2],
        radius: f64,
    },
    /// Counter-clockwise between two angles in degrees.
    Arc {
        center: [f64; 2],
        radius: f64,
        degrees: [f64; 2],
    },
    /// Vertices, each with the bulge of what leaves it.
    Polyline {
        vertices: Vec<([f64; 2], f64)>,
        closed: bool,
    },
}

/// The tags of one thing drawn.
struct Entity<'t> {
    kind: &'t str,
    line: usize,
    tags: Vec<Tag<'t>>,
}

/// Reads the unit and what is drawn in model space; what is hidden is left out.
pub(crate) fn read(bytes: &[u8]) -> Result<Drawing, ImportFault> {
    if bytes.contains(&0) {
        return Err(ImportFault::Binary);
    }
    // Groups and numbers are plain letters; names in an old code page do not matter here.
    let text = String::from_utf8_lossy(bytes);
    let tags = tags(text.trim_start_matches('\u{feff}'))?;
    let (mut unit, mut entities) = (None, Vec::new());
    let mut section = "";
    for (at, tag) in tags.iter().enumerate() {
        let before = at.checked_sub(1).map(|before| tags[before]);
        let after =
            |group: i32, value: &str| before.is_some_and(|tag| tag.group == group && tag.value == value);
        match (tag.group, tag.value, section) {
            (2, name, _) if after(0, "SECTION") => section = name,
            (0, "ENDSEC", _) => section = "",
            (70, _, "HEADER") if after(9, "$INSUNITS") => unit = Some(tag.whole()?),
            (0, kind, "ENTITIES") => entities.push(Entity { kind, line: tag.line, tags: Vec::new() }),
            (_, _, "ENTITIES") => entities.last_mut().into_iter().for_each(|entity| entity.tags.push(*tag)),
            _ => {}
        }
    }
    Ok(Drawing { unit, figures: figures(&entities)? })
}

fn figures(entities: &[Entity<'_>]) -> Result<Vec<Figure>, ImportFault> {
    let mut figures = Vec::new();
    let mut rest = entities.iter().peekable();
    while let Some(entity) = rest.next() {
        // The vertices of an old polyline are entities of their own, up to its end.
        let mut corners = Vec::new();
        if entity.kind == "POLYLINE" {
            while let Some(corner) = rest.next_if(|next| next.kind == "VERTEX") {
                corners.push(corner);
            }
            rest.next_if(|next| next.kind == "SEQEND");
        }
        let is_one = |group: i32| entity.tags.iter().any(|tag| tag.group == group && tag.value == "1");
        let (on_paper, hidden) = (is_one(67), is_one(60));
        if on_paper || hidden || entity.kind == "VIEWPORT" {
            continue;
        }
        let shape = match entity.kind {
            "LINE" => entity.line()?,
            "CIRCLE" => Figured::Circle { center: entity.pair(10)?, radius: entity.number(40)? },
            "ARC" => Figured::Arc {
                center: entity.pair(10)?,
                radius: entity.number(40)?,
                degrees: [entity.number(50)?, entity.number(51)?],
            },
            "LWPOLYLINE" => entity.light_polyline()?,
            "POLYLINE" => entity.old_polyline(&corners)?,
            kind => return Err(ImportFault::Unsupported { kind: shown(kind), line: entity.line }),
        };
        figures.push(Figure { shape, turned_over: entity.kind != "LINE" && entity.is_turned_over()? });
    }
    Ok(figures)
}

impl Entity<'_> {
    fn tag(&self, group: i32) -> Option<&Tag<'_>> {
        self.tags.iter().find(|tag| tag.group == group)
    }

    fn number(&self, group: i32) -> Result<f64, ImportFault> {
        let missing = || ImportFault::Incomplete { kind: self.kind.into(), line: self.line, group };
        self.tag(group).ok_or_else(missing)?.number()
    }

    /// A number that may be left out.
    fn number_or(&self, group: i32, otherwise: f64) -> Result<f64, ImportFault> {
        self.tag(group).map_or(Ok(otherwise), Tag::number)
    }

    /// The place whose x stands in a group, and its y ten groups on.
    fn pair(&self, group: i32) -> Result<[f64; 2], ImportFault> {
        Ok([self.number(group)?, self.number(group + 10)?])
    }

    fn flags(&self) -> Result<i64, ImportFault> {
        self.tag(70).map_or(Ok(0), Tag::whole)
    }

    fn not_flat(&self) -> ImportFault {
        ImportFault::NotFlat { kind: self.kind.into(), line: self.line }
    }

    /// Whether it lies on the back of the plane; what is tilted is refused.
    fn is_turned_over(&self) -> Result<bool, ImportFault> {
        let normal = [self.number_or(210, 0.0)?, self.number_or(220, 0.0)?, self.number_or(230, 1.0)?];
        match normal {
            [x, y, z] if x.abs().max(y.abs()) <= 1e-6 * z.abs() && z != 0.0 => Ok(z < 0.0),
            _ => Err(self.not_flat()),
        }
    }

    fn line(&self) -> Result<Figured, ImportFault> {
        if self.number_or(30, 0.0)? != self.number_or(31, 0.0)? {
            return Err(self.not_flat());
        }
        Ok(Figured::Line([self.pair(10)?, self.pair(11)?]))
    }

    fn light_polyline(&self) -> Result<Figured, ImportFault> {
        let mut vertices: Vec<([f64; 2], f64)> = Vec::new();
        let mut x = None;
        for tag in &self.tags {
            match (tag.group, x.take(), vertices.last_mut()) {
                (10, ..) => x = Some(tag.number()?),
                (20, Some(x), _) => vertices.push(([x, tag.number()?], 0.0)),
                (42, _, Some((_, bulge))) => *bulge = tag.number()?,
                _ => {}
            }
        }
        Ok(Figured::Polyline { vertices, closed: self.flags()? & 1 == 1 })
    }

    fn old_polyline(&self, corners: &[&Self]) -> Result<Figured, ImportFault> {
        // Anything but "closed" and the pattern of its dashes: smoothed, in space, or a mesh.
        if self.flags()? & !(1 | 128) != 0 {
            return Err(ImportFault::Unsupported { kind: self.kind.into(), line: self.line });
        }
        let vertices = corners.iter().map(|corner| Ok((corner.pair(10)?, corner.number_or(42, 0.0)?)));
        Ok(Figured::Polyline {
            vertices: vertices.collect::<Result<_, _>>()?,
            closed: self.flags()? & 1 == 1,
        })
    }
}

impl Drawing {
    /// The lines and arcs in millimetres, those left out that are no longer than what is joined.
    ///
    /// `scale` is one unit of the drawing in millimetres.
    pub(crate) fn segments(&self, scale: f64) -> Result<Vec<Segment>, ImportFault> {
        let mut segments: Vec<Segment> = Vec::new();
        for figure in &self.figures {
            let pieces = figure.shape.segments(scale);
            let long = pieces.into_iter().filter(|piece| piece.length() > JOIN.distance());
            segments.extend(long.map(|piece| if figure.turned_over { turned_over(&piece) } else { piece }));
            if segments.len() > SEGMENTS {
                return Err(ImportFault::TooMany);
            }
        }
        Ok(segments)
    }
}

impl Figured {
    fn segments(&self, scale: f64) -> Vec<Segment> {
        let point = |[x, y]: [f64; 2]| Point2::mm(x * scale, y * scale);
        match self {
            Self::Line([from, to]) => vec![Segment::new(point(*from), point(*to), 0.0)],
            Self::Circle { center, radius } => {
                Circle::of_diameter(point(*center), Length::mm(radius * scale * 2.0)).segments().to_vec()
            }
            Self::Arc { center, radius, degrees: [from, to] } => {
                let sweep = (to - from).rem_euclid(360.0);
                let sweep = if sweep == 0.0 { 360.0 } else { sweep };
                let at = |share: f64| {
                    let angle = (from + sweep * share).to_radians();
                    let [x, y] = *center;
                    point([x + radius * math::cos(angle), y + radius * math::sin(angle)])
                };
                // In two halves: a bulge is exact to half a turn and far beyond, but not for all of one.
                let bulge = math::tan((sweep / 8.0).to_radians());
                vec![Segment::new(at(0.0), at(0.5), bulge), Segment::new(at(0.5), at(1.0), bulge)]
            }
            Self::Polyline { vertices, closed } => {
                let ends = vertices.iter().skip(1).chain(vertices.first().filter(|_| *closed));
                let pairs = vertices.iter().zip(ends);
                pairs.map(|((from, bulge), (to, _))| Segment::new(point(*from), point(*to), *bulge)).collect()
            }
        }
    }
}

/// What is drawn on the back, seen from the front: its x runs the other way.
fn turned_over(segment: &Segment) -> Segment {
    let point = |point: Point2| Point2::mm(-point.x, point.y);
    Segment::new(point(segment.from()), point(segment.to()), -segment.bulge())
}
