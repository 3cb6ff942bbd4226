// Where everything in a schematic stands.
//
// The layered-graph library places boxes and routes wires with right angles that go round boxes. Columns and the order
// in them are forced on it by coordinates that it must keep: the columns are the ticks, the order is found before (see
// schematic-order.ts). Of the best orders a few are drawn, crossings are counted in the picture that comes out, and the
// picture with the fewest is kept.
//
// A crossing is a point where a level piece of one net meets an upright piece of another.

import type { ElkExtendedEdge, ElkNode, ElkPort, ELK as Library } from 'elkjs/lib/elk-api.js';
import { type Hop, type Ordering, orderings } from './schematic-order.ts';
import { countCrossings, dotsOf, mergedPieces, type Piece, piecesOf, type Spot } from './schematic-pieces.ts';
import type { Box, Line, Plan } from './schematic-plan.ts';
import { boxSize, endsOf, KNOT } from './schematic-symbols.ts';

export interface PlacedBox extends Spot {
  readonly box: Box;
  readonly width: number;
  readonly height: number;
  /** Where the legs end, by position in `box.legs`, and where the leads begin, by position in `box.leads`. */
  readonly legs: readonly Spot[];
  readonly leads: readonly Spot[];
}

export interface PlacedNet {
  readonly net: number;
  /** Straight pieces, none lying on another of the same net. */
  readonly pieces: readonly (readonly [Spot, Spot])[];
  /** Pieces on the slowest path. */
  readonly criticalPieces: readonly (readonly [Spot, Spot])[];
  /** Where pieces are tied together. */
  readonly dots: readonly Spot[];
}

export interface Placed {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly PlacedBox[];
  readonly nets: readonly PlacedNet[];
  readonly crossings: number;
}

const OPTIONS: Readonly<Record<string, string>> = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.separateConnectedComponents': 'false',
  'elk.layered.layering.strategy': 'INTERACTIVE',
  'elk.layered.nodePlacement.strategy': 'BRANDES_KOEPF',
  'elk.layered.nodePlacement.favorStraightEdges': 'true',
  'elk.spacing.nodeNode': '14',
  'elk.spacing.edgeEdge': '9',
  'elk.spacing.edgeNode': '10',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '8',
  'elk.layered.spacing.edgeNodeBetweenLayers': '12',
  'elk.layered.spacing.nodeNodeBetweenLayers': '26',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
};

/** So far apart that the library sees every column for itself. */
const COLUMN = 10_000;

interface Ends {
  readonly legs: readonly string[];
  readonly leads: readonly string[];
}

function endNames({ id, legs, leads }: Box): Ends {
  return { legs: legs.map((_, n) => `${id}w${n}`), leads: leads.map((_, n) => `${id}e${n}`) };
}

/** Ends of the boxes in the order of what they lead to, by box. */
interface EndOrder {
  readonly legs: readonly number[];
  readonly leads: readonly number[];
}

function sortedBy(count: number, key: (at: number) => number): number[] {
  const keys = Array.from({ length: count }, (_, at) => key(at));
  return [...keys.keys()].sort((a, b) => keys[a] - keys[b] || a - b);
}

/** Legs in the order of where they come from, leads in the order of where they go. */
function endOrders(plan: Plan, { hops, columns }: Ordering): EndOrder[] {
  const place = new Map<number, number>();
  for (const column of columns)
    column.forEach((vertex, at) => {
      place.set(vertex, at - (column.length - 1) / 2);
    });
  const at = (vertex: number): number => place.get(vertex) ?? 0;
  const leads = plan.boxes.map(({ id, leads: nets }) =>
    sortedBy(nets.length, (n) => {
      const to = hops.flat().find(({ net, from }) => net === nets[n] && from === id)?.to ?? [];
      return to.reduce((sum, vertex) => sum + at(vertex), 0) / Math.max(1, to.length);
    }),
  );
  const leadPlace = (from: number, net: number): number => {
    const box = plan.boxes[from] as Box | undefined;
    return box === undefined ? 0 : leads[from].indexOf(box.leads.indexOf(net)) / (1 + box.leads.length);
  };
  return plan.boxes.map(({ id, legs, kind, legNames }) => {
    const sources = hops.flat().filter(({ to }) => to.includes(id));
    const legs_ = sortedBy(legs.length, (n) => {
      const own = sources.filter(({ net }) => net === legs[n]);
      const hop = kind === 'join' ? sourceOfLeg(plan, own, hops, legNames[n]) : own[0];
      return hop === undefined ? 0 : at(hop.from) + leadPlace(hop.from, hop.net);
    });
    return { legs: legs_, leads: leads[id] };
  });
}

/** Of the hops of one net into a join, the one that begins at the driver of that name. */
function sourceOfLeg(
  plan: Plan,
  own: readonly Hop[],
  hops: Ordering['hops'],
  driver: string,
): Hop | undefined {
  const begins = (hop: Hop): boolean => {
    if (hop.from < plan.boxes.length) return plan.boxes[hop.from].name === driver;
    const before = hops.flat().find(({ net, to }) => net === hop.net && to.includes(hop.from));
    return before !== undefined && begins(before);
  };
  return own.find(begins);
}

/** The graph with everything in its order: columns and orders are told by coordinates that the library keeps. */
function graphFor(plan: Plan, ordering: Ordering, orders: readonly EndOrder[]): ElkNode {
  const { vertices, hops, columns } = ordering;
  const nodes: ElkNode[] = [];
  for (const column of columns) {
    column.forEach((vertex, at) => {
      const { box } = vertices[vertex];
      const spot = { x: vertices[vertex].column * COLUMN, y: at * 1000 };
      nodes.push(box === null ? passageNode(vertex, spot) : boxNode(plan.boxes[box], spot, orders[box]));
    });
  }
  const edges: ElkExtendedEdge[] = [];
  for (const { net, from, to } of hops.flat()) {
    const source =
      vertices[from].box === null ? `p${from}e` : `${from}e${plan.boxes[from].leads.indexOf(net)}`;
    for (const target of to) {
      const { box } = vertices[target];
      const end = box === null ? `p${target}w` : `${box}w${legAt(plan, ordering, { net, from, to }, box)}`;
      edges.push({ id: `h${net} ${from} ${target}`, sources: [source], targets: [end] });
    }
  }
  const layoutOptions = { ...OPTIONS, 'elk.layered.crossingMinimization.strategy': 'INTERACTIVE' };
  return { id: 'root', layoutOptions, children: nodes, edges };
}

/** Which leg of a box a hop ends at. */
function legAt(plan: Plan, { hops }: Ordering, hop: Hop, box: number): number {
  const { kind, legs, legNames } = plan.boxes[box];
  if (kind !== 'join') return legs.indexOf(hop.net);
  return legNames.findIndex((name) => sourceOfLeg(plan, [hop], hops, name) !== undefined);
}

function passageNode(vertex: number, spot: Spot): ElkNode {
  const port = (side: string, x: number): ElkPort => ({
    id: `p${vertex}${side === 'WEST' ? 'w' : 'e'}`,
    x,
    y: 0,
    width: 0,
    height: 0,
    layoutOptions: { 'elk.port.side': side },
  });
  const layoutOptions = { 'elk.portConstraints': 'FIXED_POS' };
  return {
    id: `p${vertex}`,
    ...spot,
    width: 1,
    height: 0,
    ports: [port('WEST', 0), port('EAST', 1)],
    layoutOptions,
  };
}

function boxNode(box: Box, spot: Spot, { legs, leads }: EndOrder): ElkNode {
  const { width, height } = boxSize(box);
  const names = endNames(box);
  const ends = endsOf(box);
  const port = (id: string, { x, y }: Spot, side: string): ElkPort => ({
    id,
    x,
    y,
    width: 0,
    height: 0,
    layoutOptions: { 'elk.port.side': side },
  });
  return {
    id: `b${box.id}`,
    ...spot,
    width,
    height,
    ports: [
      ...legs.map((leg, place) => port(names.legs[leg], ends.legs[place], 'WEST')),
      ...leads.map((lead, place) => port(names.leads[lead], ends.leads[place], 'EAST')),
    ],
    layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
  };
}

/** Orders that are drawn to see which has the fewest crossings; drawing costs more than ordering. */
function drawn({ lines }: Plan): number {
  return lines.length <= 60 ? 4 : 2;
}

/** Gives every box and every wire its place. Same plan, same places. */
export async function layOut(plan: Plan, library: Library): Promise<Placed> {
  let best: Placed | null = null;
  for (const ordering of orderings(plan, drawn(plan))) {
    const root = await library.layout(graphFor(plan, ordering, endOrders(plan, ordering)));
    const placed = placedOf(plan, ordering, root);
    if (best === null || placed.crossings < best.crossings) best = placed;
  }
  if (best === null) throw new Error('there is always an order');
  return best;
}

function placedOf(plan: Plan, ordering: Ordering, root: ElkNode): Placed {
  const nodes = new Map((root.children ?? []).map((node) => [node.id, node]));
  const boxes = plan.boxes.map((box): PlacedBox => {
    const node = nodes.get(`b${box.id}`);
    const names = endNames(box);
    const [x, y] = [node?.x ?? 0, node?.y ?? 0];
    const spot = (id: string): Spot => {
      const port = node?.ports?.find((other) => other.id === id);
      return { x: x + (port?.x ?? 0), y: y + (port?.y ?? 0) };
    };
    return {
      box,
      x,
      y,
      width: node?.width ?? 0,
      height: node?.height ?? 0,
      legs: names.legs.map(spot),
      leads: names.leads.map(spot),
    };
  });
  const routes = new Map(
    (root.edges ?? []).map(({ id, sections }) => [
      id,
      (sections ?? []).flatMap(({ startPoint, bendPoints, endPoint }) => [
        startPoint,
        ...(bendPoints ?? []),
        endPoint,
      ]),
    ]),
  );
  const nets = plan.nets.map((_, net) => placedNet(plan, ordering, net, routes, boxes, nodes));
  return { width: root.width ?? 0, height: root.height ?? 0, boxes, nets, crossings: countCrossings(nets) };
}

/** The pieces of one line of the plan: its hops and the passages between them. */
function piecesOfLine(
  { net, from, to }: Line,
  { vertices, hops }: Ordering,
  routes: ReadonlyMap<string, readonly Spot[]>,
  nodes: ReadonlyMap<string, ElkNode>,
): Piece[] {
  const pieces: Piece[] = [];
  // Backwards from the end: every vertex is entered by one hop of the driver that began it.
  const walk = (target: number): boolean => {
    for (const hop of hops.flat()) {
      if (hop.net !== net || !hop.to.includes(target)) continue;
      const isStart = hop.from === from;
      if (!isStart && (vertices[hop.from].box !== null || !walk(hop.from))) continue;
      pieces.push(...piecesOf(routes.get(`h${net} ${hop.from} ${target}`) ?? []));
      const passage = vertices[hop.from].box === null ? nodes.get(`p${hop.from}`) : undefined;
      if (passage !== undefined) {
        const [x, y] = [passage.x ?? 0, passage.y ?? 0];
        pieces.push([
          { x, y },
          { x: x + (passage.width ?? 0), y },
        ]);
      }
      return true;
    }
    return false;
  };
  walk(to);
  return pieces;
}

function placedNet(
  plan: Plan,
  ordering: Ordering,
  net: number,
  routes: ReadonlyMap<string, readonly Spot[]>,
  boxes: readonly PlacedBox[],
  nodes: ReadonlyMap<string, ElkNode>,
): PlacedNet {
  const pieces: Piece[] = [];
  const criticalPieces: Piece[] = [];
  for (const line of plan.lines) {
    if (line.net !== net) continue;
    const own = piecesOfLine(line, ordering, routes, nodes);
    pieces.push(...own);
    if (line.critical) criticalPieces.push(...own);
  }
  for (const { box, legs, leads } of boxes) {
    if (box.kind !== 'join' || box.leads[0] !== net) continue;
    const ys = [...legs, ...leads].map(({ y }) => y);
    const x = legs[0].x + KNOT;
    const bar: Piece = [
      { x, y: Math.min(...ys) },
      { x, y: Math.max(...ys) },
    ];
    const stubs = [
      ...legs.map((leg): Piece => [leg, { x, y: leg.y }]),
      ...leads.map((lead): Piece => [{ x, y: lead.y }, lead]),
    ];
    pieces.push(bar, ...stubs);
    plan.lines.forEach((line) => {
      if (line.net !== net || !line.critical) return;
      if (line.to === box.id) {
        const into = plan.lines.filter((other) => other.to === box.id).indexOf(line);
        criticalPieces.push([legs[into], { x, y: legs[into].y }]);
        criticalPieces.push([
          { x, y: legs[into].y },
          { x, y: leads[0].y },
        ]);
      } else criticalPieces.push([{ x, y: leads[0].y }, leads[0]]);
    });
  }
  const merged = mergedPieces(pieces);
  return { net, pieces: merged, criticalPieces: mergedPieces(criticalPieces), dots: dotsOf(merged) };
}
