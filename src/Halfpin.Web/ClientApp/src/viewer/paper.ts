import { BackSide, Color, DoubleSide, FrontSide, ShaderMaterial, Vector2, type Side } from "three";

/** Values that every material of one view shares. */
export interface Shared {
  viewport: { value: Vector2 };
  /** Device pixels to a CSS pixel. */
  ratio: { value: number };
  /** Enlargement of the movement at this moment. */
  bent: { value: number };
}

export function createShared(): Shared {
  return { viewport: { value: new Vector2(1, 1) }, ratio: { value: 1 }, bent: { value: 0 } };
}

const place = /* glsl */ `
  attribute vec3 moved;
  uniform float uBent;
  vec4 placed(out vec3 turned) {
    vec4 p = vec4(position + moved * uBent, 1.0);
    vec3 n = normal;
    #ifdef USE_INSTANCING
      mat3 m = mat3(instanceMatrix);
      n = n / vec3(dot(m[0], m[0]), dot(m[1], m[1]), dot(m[2], m[2]));
      n = m * n;
      p = instanceMatrix * p;
    #endif
    turned = normalize(normalMatrix * n);
    return modelViewMatrix * p;
  }`;

export interface FillOptions {
  /** Share of the ink in the tone of the side away from the light; 0 for a flat fill. */
  tone?: number;
  side?: Side;
}

/** A flat fill with one flat darker tone away from the light, as a pen drawing has it; instances bring their own colour. */
export function fillMaterial(shared: Shared, colour: Color, shade: Color, options: FillOptions = {}): ShaderMaterial {
  return new ShaderMaterial({
    side: options.side ?? FrontSide,
    uniforms: {
      uColour: { value: colour }, uShade: { value: shade }, uTone: { value: options.tone ?? 0.16 }, uBent: shared.bent,
    },
    vertexShader: place + /* glsl */ `
      varying vec3 vNormal, vColour;
      uniform vec3 uColour;
      void main() {
        gl_Position = projectionMatrix * placed(vNormal);
        #ifdef USE_INSTANCING_COLOR
          vColour = instanceColor;
        #else
          vColour = uColour;
        #endif
      }`,
    fragmentShader: /* glsl */ `
      varying vec3 vNormal, vColour;
      uniform vec3 uShade;
      uniform float uTone;
      void main() {
        float lit = dot(normalize(vNormal), normalize(vec3(-0.55, 0.35, 0.6)));
        float edge = fwidth(lit) + 1e-4;
        float dark = 1.0 - smoothstep(0.3 - edge, 0.3 + edge, lit);
        gl_FragColor = vec4(mix(vColour, uShade, uTone * dark), 1.0);
      }`,
  });
}

/** The outline: the back of the body, pushed out on the screen by the width of the line. */
export function outlineMaterial(shared: Shared, colour: Color, widthPx: number): ShaderMaterial {
  return new ShaderMaterial({
    side: BackSide,
    uniforms: {
      uColour: { value: colour }, uWidth: { value: widthPx }, uViewport: shared.viewport, uRatio: shared.ratio, uBent: shared.bent,
    },
    vertexShader: place + /* glsl */ `
      #ifdef USE_INSTANCING
        attribute vec4 ink;
        attribute vec3 lean;
      #endif
      uniform vec3 uColour;
      uniform float uWidth, uRatio;
      uniform vec2 uViewport;
      varying vec3 vColour;
      void main() {
        vec3 n;
        vec4 p = projectionMatrix * placed(n);
        float width = uWidth;
        vColour = uColour;
        #ifdef USE_INSTANCING
          // Corners move outward along all their edges, however long the body is, so that the outline closes there.
          mat3 m = mat3(instanceMatrix);
          n = normalMatrix * (mat3(normalize(m[0]), normalize(m[1]), normalize(m[2])) * lean);
          width = ink.w * 1.2;
          vColour = ink.rgb;
        #endif
        p.xy += n.xy / max(length(n.xy), 1e-3) * width * uRatio * 2.0 / uViewport;
        gl_Position = p;
      }`,
    fragmentShader: /* glsl */ `
      varying vec3 vColour;
      void main() { gl_FragColor = vec4(vColour, 1.0); }`,
  });
}

/** Hatching in screen space: one for each zone, so that the zones differ without their colours. */
export function hatchMaterial(shared: Shared, colour: Color, fill: number, spacingPx: number, crossed: boolean): ShaderMaterial {
  return new ShaderMaterial({
    side: DoubleSide,
    transparent: true,
    depthWrite: false,
    uniforms: {
      uColour: { value: colour }, uFill: { value: fill }, uSpacing: { value: spacingPx }, uCrossed: { value: crossed ? 1 : 0 }, uRatio: shared.ratio,
    },
    vertexShader: /* glsl */ `void main() { gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }`,
    fragmentShader: /* glsl */ `
      uniform vec3 uColour;
      uniform float uFill, uSpacing, uCrossed, uRatio;
      float stroke(float at) {
        float d = abs(mod(at / uRatio, uSpacing) - uSpacing * 0.5);
        return 1.0 - smoothstep(0.35, 1.0, d);
      }
      void main() {
        float a = uFill;
        if (uSpacing > 0.0) {
          a = max(a, stroke((gl_FragCoord.x + gl_FragCoord.y) * 0.7071));
          if (uCrossed > 0.5) a = max(a, stroke((gl_FragCoord.x - gl_FragCoord.y) * 0.7071));
        }
        gl_FragColor = vec4(uColour, a);
      }`,
  });
}
