/** What a chart looks like follows from tokens of the page; a picture has to carry it along. */
const carried = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'font-size',
  'font-family',
  'font-weight',
  'text-anchor',
] as const

const pixelsPerUnit = 2

/** The chart as a file of its own, in the colours that it has on the page. */
function standalone(svg: SVGSVGElement): { readonly text: string; readonly width: number; readonly height: number } {
  const copy = svg.cloneNode(true) as SVGSVGElement
  const [originals, copies] = [svg, copy].map((root) => [...root.querySelectorAll('*')]) as [Element[], Element[]]
  for (const [index, original] of originals.entries()) {
    const computed = getComputedStyle(original)
    const style = carried.map((name) => `${name}:${computed.getPropertyValue(name)}`).join(';')
    copies[index]?.setAttribute('style', style)
  }
  const { width, height } = svg.viewBox.baseVal
  const ground = document.createElementNS('http://www.w3.org/2000/svg', 'rect')
  const paper = getComputedStyle(document.body).backgroundColor
  for (const [name, value] of Object.entries({ width, height, fill: paper })) ground.setAttribute(name, String(value))
  copy.prepend(ground)
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  copy.setAttribute('width', String(width))
  copy.setAttribute('height', String(height))
  copy.removeAttribute('aria-hidden')
  return { text: new XMLSerializer().serializeToString(copy), width, height }
}

export function saveSvg(svg: SVGSVGElement | undefined, name: string): void {
  if (svg === undefined) return
  save(new Blob([standalone(svg).text], { type: 'image/svg+xml' }), `${name}.svg`)
}

/** @returns whether the browser could draw it */
export async function savePng(svg: SVGSVGElement, name: string): Promise<boolean> {
  const { text, width, height } = standalone(svg)
  const image = new Image()
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`
  try {
    await image.decode()
  } catch {
    return false
  }
  const canvas = document.createElement('canvas')
  canvas.width = width * pixelsPerUnit
  canvas.height = height * pixelsPerUnit
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height)
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'))
  if (blob === null) return false
  save(blob, `${name}.png`)
  return true
}

function save(blob: Blob, name: string): void {
  const url = URL.createObjectURL(blob)
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  URL.revokeObjectURL(url)
}
