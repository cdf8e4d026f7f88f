import { dottedName, type Node, type Source } from './source.ts'

type Fault = { line: number; says: string }

/** Where a file reads a clock: in any way but through lib/clock.ts or a parameter. */
export function clockReads(source: Source): Fault[] {
  return faultsOf(source, (node, parent) => {
    const name = dottedName(node)
    if (node.type === 'NewExpression' && dottedName(node.callee as Node) === 'Date') {
      const [first] = node.arguments as Node[]
      return !first || first.type === 'SpreadElement' ? 'new Date() without an instant' : null
    }
    if (name === 'Date' && !harmlessUseOfDate(node, parent)) return 'Date as a value of its own'
    if (name === 'Date.now') return name
    if (node.type === 'MemberExpression' && (node.property as Node).name === 'Now') return 'Temporal.Now'
    if (name === 'performance' && !source.declared.has(name)) return name
    if (name === 'process.hrtime' || name === 'process.uptime') return name
    if (node.type === 'CallExpression' && formatsThePresent(node))
      return 'a date format of no date: the present'
    return null
  })
}

/** Where a file depends on chance or on the machine that it runs on, its time zone included. */
export function chanceOrEnvironment(source: Source): Fault[] {
  return faultsOf(source, (node, parent) => {
    const name = dottedName(node)
    if (name === 'Math.random') return name
    if (node.type === 'Identifier' && machine.has(name ?? '') && !source.declared.has(name ?? '')) {
      return /^TS/.test(parent?.type ?? '') ? null : (name ?? null)
    }
    if (node.type === 'MetaProperty') return 'import.meta'
    if (node.type === 'NewExpression' && dottedName(node.callee as Node) === 'Date') {
      return (node.arguments as Node[]).length > 1 ? "new Date of parts, in the machine's time zone" : null
    }
    if (node.type === 'MemberExpression') {
      const method = String((node.property as Node).name)
      return localMethod.test(method) ? `${method}, in the machine's time zone or language` : null
    }
    return null
  })
}

const machine = new Set(
  (
    'process crypto globalThis global self window document navigator location fetch localStorage ' +
    'sessionStorage indexedDB setTimeout setInterval setImmediate queueMicrotask'
  ).split(' '),
)

const localMethod =
  /^([gs]et(FullYear|Month|Date|Day|Hours|Minutes)|getTimezoneOffset|to(Locale)?(Date|Time)String|toLocaleString)$/

/** `Date.parse(…)`, `new Date(…)`, `x instanceof Date` and types say nothing about the present. */
function harmlessUseOfDate(node: Node, parent: Node | null): boolean {
  if (node.type !== 'Identifier' || !parent) return false
  if (parent.type === 'NewExpression') return parent.callee === node
  if (parent.type === 'MemberExpression') return parent.object === node
  if (parent.type === 'BinaryExpression') return parent.operator === 'instanceof' && parent.right === node
  return parent.type.startsWith('TS')
}

function formatsThePresent(node: Node): boolean {
  const callee = node.callee as Node
  const method = callee.type === 'MemberExpression' ? (callee.property as Node).name : ''
  return (method === 'format' || method === 'formatToParts') && (node.arguments as Node[]).length === 0
}

function faultsOf(source: Source, judge: (node: Node, parent: Node | null) => string | null): Fault[] {
  const faults = new Map<string, Fault>()
  source.visit((node, parent) => {
    const says = judge(node, parent)
    const line = source.lineOf(node)
    if (says !== null) faults.set(`${line} ${says}`, { line, says })
  })
  return [...faults.values()]
}
